"""The two sheets on paper: the golfer's and the workshop's, each as text and as one page of HTML."""
