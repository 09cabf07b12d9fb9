"""Consent, who pays, and what is confirmed before the hands begin."""

from __future__ import annotations

import pytest

from casebook.bench.at_desk import NotPossible
from casebook.records.check import BadCase
from tests.bench.shop_days import LIBRARY, Days

BUSHING = "post_hidden_bushing"


@pytest.fixture
def case(days: Days) -> str:
    """A case with one damaged post."""
    desk = days.on("2026-06-01")
    number = desk.take_in("Post out", number="Q-1").number
    desk.add_damage(number, "posts", "low F key")
    return number


def test_nothing_is_done_under_guarantee_before_the_seller_agrees(days: Days, case: str) -> None:
    """New and cracked: not even a cleaning, and another's yes does not open it."""
    desk = days.on("2026-06-01")
    assert "do nothing before the seller agrees" in desk.pays(case, "seller")
    assert desk.may_open_plan(case, 1, "measure_again") is None
    for strategy in (BUSHING, "post_clean_and_reassess"):
        assert "do nothing before the seller agrees" in (desk.may_open_plan(case, 1, strategy) or "")
    desk.agree(case, 1, "yes", who="the owner")
    assert "is not the seller's" in (desk.may_open_plan(case, 1, BUSHING) or "")
    desk.agree(case, 1, "yes", who="the seller", how="in writing")
    assert desk.may_open_plan(case, 1, BUSHING) is None


def test_a_payer_of_one_damage_stands_before_the_payer_of_the_case(days: Days, case: str) -> None:
    desk = days.on("2026-06-01")
    desk.pays(case, "seller")
    desk.agree(case, 1, "yes", who="the owner", pays="owner")
    assert desk.may_open_plan(case, 1, BUSHING) is None


def test_the_last_word_counts_and_every_word_stays(days: Days, case: str) -> None:
    desk = days.on("2026-06-01")
    desk.agree(case, 1, "yes", who="the owner")
    desk.agree(case, 1, "no", who="the owner", to_what=BUSHING)
    assert "advised, declined by the owner on 2026-06-01" in (desk.may_open_plan(case, 1, BUSHING) or "")
    assert desk.declined(case) == [
        "damage 1, low F key: advised Hidden threaded bushing under the flange, declined by the owner on 2026-06-01"
    ]
    assert [one.said for one in desk.book.case(case).damages[0].consents] == ["yes", "no"]


@pytest.mark.parametrize("told", [{"up_to": "-80"}, {"up_to": "a lot"}, {"pays": "nobody"}])
def test_what_cannot_be_kept_is_refused_and_nothing_changes(
    days: Days, case: str, told: dict[str, str]
) -> None:
    desk = days.on("2026-06-01")
    with pytest.raises(BadCase):
        desk.agree(case, 1, "yes", **told)  # type: ignore[arg-type]
    with pytest.raises(BadCase):
        desk.agree(case, 1, "perhaps")
    with pytest.raises(NotPossible, match="say one of owner, insurer"):
        desk.pays(case, "the cat")
    with pytest.raises(NotPossible, match="no strategy"):
        desk.may_open_plan(case, 1, "magic")
    assert desk.book.case(case).damages[0].consents == ()


def test_shop_rules_are_one_line_and_only_what_is_special_is_confirmed(days: Days, case: str) -> None:
    """Over two damages no caution stands twice, and what was confirmed is not asked again."""
    desk = days.on("2026-06-01", accepted=["caution_wood_dust"])
    desk.add_damage(case, "posts", "low E key")
    for question, answer in (("instrument_kind", "clarinet"), ("body_wood", "grenadilla")):
        desk.intake(case).answer(question, answer)
    for damage in (1, 2):
        look = desk.look(case, damage)
        desk.choose(case, damage, look.advice, BUSHING)
    cautions = desk.cautions(case)
    ids = [caution.id for caution in cautions.special]
    assert len(ids) == len(set(ids))
    assert "caution_wood_dust" not in ids
    assert cautions.shop_rules == "Shop rules apply: wood dust."
    to_confirm = [caution.id for caution in desk.cautions_to_confirm(case)]
    assert to_confirm
    assert "caution_wood_dust" in [c.id for c in days.on("2026-06-01").cautions_to_confirm(case)]
    desk.confirm(case, to_confirm, by="hk")
    desk.confirm(case, to_confirm, by="jv")
    assert desk.cautions_to_confirm(case) == []
    assert {one.by for one in desk.book.case(case).confirmed} == {"hk"}
    with pytest.raises(NotPossible, match="no rule pack has a caution"):
        desk.confirm(case, ["caution_of_nothing"])


@pytest.mark.parametrize("family", [pack.id for pack in LIBRARY.families])
def test_whatever_takes_original_material_stays_shut_until_a_yes(days: Days, family: str) -> None:
    """In every family: shut without a word, shut on 'later' and on 'no', open on a yes; the rest is never shut."""
    desk = days.on("2026-06-01")
    number = desk.take_in("x").number
    desk.add_damage(number, family, "here")
    ruled = {id: one.strategy for id, one in LIBRARY.guide(family).strategies.items()}
    taking = {id for id, strategy in ruled.items() if strategy.removes_material}

    def shut() -> set[str]:
        return {id for id in ruled if desk.may_open_plan(number, 1, id)}

    assert shut() == taking
    for said in ("later", "no"):
        desk.agree(number, 1, said)
        assert shut() == taking
    desk.agree(number, 1, "yes")
    assert shut() == set()
