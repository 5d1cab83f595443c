from typing import Any
async def test_x(open_bay: Any) -> None:
    for h in (12,1):
        async with open_bay(80,24) as bay:
            await bay.say("right","pain no")
            await bay.pilot.resize_terminal(40,12)
            await bay.press("f5")
            await bay.pilot.resize_terminal(40,h)
            print(h,bay.app.focused, bay.app.screen.classes)
            await bay.press("escape")
            print(h,bay.app.focused, bay.app.screen.classes)
            print(bay.screen_text())
