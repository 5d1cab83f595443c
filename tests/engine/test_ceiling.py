"""The most that a candidate may get, told from its parts: exact where it can be, and never idly high."""

from __future__ import annotations

from collections.abc import Callable

from rules.engine import RuleBase
from rules.engine.ceiling import Ceiling
from rules.engine.fast import Ground
from rules.engine.joined import Joined

OneRule = Callable[[str, str], RuleBase]
OWN = ("grown", "bears", "hardy")
SORTS = {"size": ("grown",), "gift": ("bears", "hardy")}
FRUIT = frozenset(("fruit",))
SHADE = frozenset(("shade",))
FALLING = '{ points = { from = "grown", at = [["1 m", 0], ["40 m", -39]] } }'
RISING = '{ points = { from = "grown", at = [["1 m", -8], ["21 m", 12], ["40 m", 2]] } }'
BEARS = '{ fact = "bears", is = "fruit" }'


def counted(base: RuleBase, **ground: object) -> tuple[Joined, Ceiling]:
    """What adds up trees made of a size and a gift, and the most that they may get."""
    joined = base.joined("tree", Ground(dict(ground)), OWN)  # type: ignore[arg-type]
    return joined, joined.ceiling(SORTS)


def test_a_rule_on_all_that_one_part_holds_is_known_with_that_part(one_rule: OneRule) -> None:
    """Though the part holds nothing else: nothing is left to doubt once its height is known."""
    joined, ceiling = counted(one_rule('{ fact = "grown", above = "5 m" }', RISING))
    tall, low = joined.part({"grown": 21.0}), joined.part({"grown": 4.0})
    assert ceiling.alone("size", tall, joined.shared) == 12_000
    assert ceiling.alone("size", low, joined.shared) == 0
    gift = joined.part({"bears": FRUIT, "hardy": None})
    assert [ceiling.alone("gift", gift, joined.shared), ceiling.others(gift)] == [0, 0]
    assert ceiling.others(tall) == 0


def test_a_rule_on_two_parts_may_give_the_top_of_its_ramp_where_the_part_does_not_hinder_it(
    one_rule: OneRule,
) -> None:
    joined, ceiling = counted(one_rule(BEARS, RISING))
    assert ceiling.others(joined.part({"bears": FRUIT, "hardy": None})) == 12_000
    assert ceiling.others(joined.part({"bears": SHADE, "hardy": None})) == 0
    low = joined.part({"grown": 1.0})
    assert ceiling.others(low) == 12_000  # where on the ramp it is, is not asked: the bound is a quick one
    assert ceiling.alone("size", low, joined.shared) == 0


def test_a_rule_on_two_parts_that_only_takes_away_adds_nothing(one_rule: OneRule) -> None:
    joined, ceiling = counted(one_rule(BEARS, FALLING))
    assert ceiling.others(joined.part({"bears": FRUIT, "hardy": None})) == 0
    joined, ceiling = counted(
        one_rule(
            '{ all = [{ fact = "grown", above = "5 m" }, { fact = "bears", is = "fruit" }] }',
            "{ points = -3 }",
        )
    )
    assert ceiling.others(joined.part({"grown": 9.0})) == 0


def test_what_the_ground_alone_gives_counts_once_and_with_the_first_sort(one_rule: OneRule) -> None:
    soil = '{ fact = "soil", is = "sand" }'
    joined, ceiling = counted(one_rule(soil, "{ points = 4 }"), soil="sand")
    parts = {"size": joined.part({"grown": 9.0}), "gift": joined.part({"bears": FRUIT, "hardy": None})}
    assert [ceiling.alone(sort, parts[sort], joined.shared) for sort in SORTS] == [4000, 0]
    assert joined.points(list(parts.values())) == (4000, False)
    forbidding, ceiling = counted(one_rule(soil, "{ rule_out = true }"), soil="sand")
    assert ceiling.alone("size", forbidding.part({"grown": 9.0}), forbidding.shared) is None


def test_one_ceiling_serves_all_evaluations_with_the_same_facts(one_rule: OneRule) -> None:
    """It is worked out once; other sorts have one of their own."""
    base = one_rule(BEARS, RISING)
    joined, ceiling = counted(base)
    assert counted(base)[1] is ceiling
    whole = joined.ceiling({"whole": OWN})
    assert whole is not ceiling
    tree = joined.part({"grown": 21.0, "bears": FRUIT, "hardy": None})
    assert (whole.alone("whole", tree, joined.shared), whole.others(tree)) == (12_000, 0)
