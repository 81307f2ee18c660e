"""Every fault played on a symptom: what each accounts for."""

from helpers.few_faults import play_those
from helpers.scripts import SINGLE
from termprobe.diagnosis import staged
from termprobe.diagnosis.area import readings_of
from termprobe.diagnosis.bell_symptom import BellSilent
from termprobe.diagnosis.causes import NO_CAUSE
from termprobe.diagnosis.dot_symptom import drawn_character
from termprobe.diagnosis.dot_symptom_words import dots_noticed
from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.diagnosis.explain import explain
from termprobe.diagnosis.staged import SymptomStage
from termprobe.diagnosis.symptom import Symptom, TextSymptom

FEW = ("bank-1-data/stuck/1/1", "decoder/dead/left", "dot-column/missing/0", "cursor/dead")
B_OF_ONE_DOT_MORE = "B=####./#...#/#...#/####./#...#/#...#/#####"

B_OF_TWO_MORE = "B=#####/#...#/#...#/####./#...#/#...#/#####"


def accounts(monkeypatch, symptom, few=FEW):
    """Return the accounts of a few faults by name, and the stage."""
    every = staged.catalogue(SINGLE)
    play_those(monkeypatch, lambda _: {name: every[name] for name in few}, staged)
    stage = SymptomStage(SINGLE, symptom, USUAL_RATES)
    return {one.cause.name: one for one in stage.accounts()}, stage


def test_how_many_faults_are_tried_is_told(monkeypatch):
    symptom, told = Symptom((TextSymptom(b"AB", b"CB"),)), []
    _, stage = accounts(monkeypatch, symptom)
    assert list(stage.accounts(lambda *counts: told.append(counts)))
    assert told == [(number, len(FEW)) for number in range(len(FEW))]


def test_texts_and_where(monkeypatch):
    symptom = Symptom((TextSymptom(b"AB", b"CB"),), readings_of("odd rows", 24, 80))
    found, stage = accounts(monkeypatch, symptom)
    assert set(found) == {"bank-1-data/stuck/1/1", "decoder/dead/left"}
    fits = found["bank-1-data/stuck/1/1"].fits
    assert fits["text 1"].is_as_predicted and fits["where"].is_as_predicted
    assert stage.bears(found["bank-1-data/stuck/1/1"].cause) and not stage.bears(NO_CAUSE)


def test_dots(monkeypatch):
    symptom = Symptom(dots=(dots_noticed("left dot column missing", SINGLE),))
    found, stage = accounts(monkeypatch, symptom)
    predicted = [name for name, one in found.items() if one.fits["noticed 1"].is_as_predicted]
    assert predicted == ["dot-column/missing/0"]
    assert stage.bears(found["dot-column/missing/0"].cause)


def test_a_drawing_of_a_single_wrong_dot(monkeypatch):
    symptom = Symptom(dots=(drawn_character(B_OF_ONE_DOT_MORE, SINGLE),))
    found, _ = accounts(monkeypatch, symptom)
    single = [name for name in found if name.startswith("glyph-cell/stuck/66-")]
    assert single and found[single[0]].fits["drawn B"].is_as_predicted == (len(single) == 1)
    found, stage = accounts(monkeypatch, Symptom(dots=(drawn_character(B_OF_TWO_MORE, SINGLE),)))
    of_dots = [one for name, one in found.items() if name.startswith("glyph-cell/")]
    assert len(of_dots) == 2 and not any(stage.bears(one.cause) for one in of_dots)


def test_a_single_wrong_dot_is_named_before_faults_that_show_it_nowhere():
    symptom = Symptom(dots=(drawn_character(B_OF_ONE_DOT_MORE, SINGLE),))
    found = explain(SINGLE, symptom)
    assert found.is_explained and found.suspects[0].block == "glyph-cell"


def test_one_dot_that_was_drawn_wrongly_is_borne_where_a_good_board_draws_more(monkeypatch):
    without_left = ".###./....#/..#.#/.###./....#/....#/.###."
    symptom = Symptom(dots=(drawn_character(f"B={without_left}", SINGLE),))
    found, stage = accounts(monkeypatch, symptom)
    missing = found["dot-column/missing/0"]
    assert not missing.fits["drawn B"].is_as_predicted and stage.bears(missing.cause)
    assert not stage.bears(NO_CAUSE) and not stage.bears(found["bank-1-data/stuck/1/1"].cause)


def test_a_bell_that_is_not_heard(monkeypatch):
    few = ("bank-1-data/stuck/1/1", "decoder/dead/bell", "dot-column/missing/0")
    found, stage = accounts(monkeypatch, Symptom(bell=BellSilent(True)), few)
    predicted = [name for name, one in found.items() if one.fits["bell"].is_as_predicted]
    assert predicted == ["decoder/dead/bell"] and stage.bears(found[predicted[0]].cause)
    assert not stage.bears(NO_CAUSE)


def test_a_good_board_must_show_it_wherever_the_text_began():
    def stage(sent, seen):
        return SymptomStage(SINGLE, Symptom((TextSymptom(sent, seen),)), USUAL_RATES)

    assert stage(b"AB", b"AB").is_as_on_good_board
    assert not stage(b"ABC\x1ed", b"dBC").is_as_on_good_board
