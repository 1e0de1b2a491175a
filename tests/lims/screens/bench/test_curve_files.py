"""The file of a curve: kept with its print, given back as it came, refused beside its form."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from lims.bench import traces
from lims.bench.models import Determination, Trace
from lims.screens.bench.curve_forms import TraceForm
from tests.factories import curves
from tests.lims.screens.bench.curving import CONTENT, address, page_of, sends, told

State = Determination.State


# ---- The file


def test_the_file_is_told_with_its_print_and_comes_back_byte_for_byte(bench, induction):
    sends(bench, induction)
    row = Trace.objects.get()

    page = page_of(bench, induction)
    assert traces.print_of(CONTENT) in page
    assert address("curve-received", induction, row.pk) in page
    answer = bench.get(address("curve-received", induction, row.pk))
    assert answer.content == CONTENT
    assert answer["Content-Disposition"] == 'attachment; filename="run-1.csv"'
    assert answer["Content-Type"] == "application/octet-stream"
    assert answer["X-Content-Type-Options"] == "nosniff"


def test_a_name_in_another_script_is_kept_in_the_header(bench, induction):
    sends(bench, induction, name="Prüfung.csv")

    answer = bench.get(address("curve-received", induction, Trace.objects.get().pk))
    assert "filename*=utf-8''Pr%C3%BCfung.csv" in answer["Content-Disposition"]


def test_a_replaced_file_is_named_and_still_given_back(bench, induction):
    sends(bench, induction)
    sends(bench, induction, curves.run_of(24), "run-2.csv", reason="wrong file chosen")

    page = page_of(bench, induction)
    assert "Replaced: run-1.csv" in page
    assert "wrong file chosen" in page
    old = Trace.objects.order_by("pk").first()
    answer = bench.get(address("curve-received", induction, old.pk))
    assert answer.content == CONTENT


def test_a_file_of_another_test_is_not_given_under_this_one(bench, induction, lab):
    sends(bench, induction)

    assert bench.get(address("curve-received", induction, 999_999)).status_code == 404


def test_whoever_reads_the_record_may_have_the_file(bench, client, induction, person):
    sends(bench, induction)
    client.force_login(person("auditor"))

    row = Trace.objects.get()
    assert client.get(address("curve-received", induction, row.pk)).content == CONTENT
    page = page_of(client, induction)
    assert "Read the curve in" not in page
    assert "Reject the curve" not in page
    assert sends(client, induction).status_code == 403
    answer = client.post(
        address("curve-judge", induction), {"place": "1", "answer": "accepted"}
    )
    assert answer.status_code == 403


# ---- What is refused stands beside the form


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (None, "Choose the file of the curve: two columns as text"),
        (b"", "The file is empty. Export the curve again"),
        (b"\x00\x01", "The file is no text"),
        (b"min,mW\n0,1\n1,x\n", "Line 3: “x” is no number"),
        (b"0" * (traces.LARGEST + 1), "more than 4000000. Export the curve with fewer"),
    ],
    ids=["no file", "empty", "no text", "bad line", "too large"],
)
def test_a_refused_file_is_told_and_nothing_is_kept(bench, induction, content, words):
    answer = sends(bench, induction, content)

    assert answer.status_code == 422
    assert words in told(answer)
    assert not Trace.objects.exists()


def test_a_file_too_large_is_never_read():
    class Unread(SimpleUploadedFile):
        def read(self, *_):
            pytest.fail("it was read")

    sent = Unread("run.csv", b"")
    sent.size = traces.LARGEST + 1

    form = TraceForm({}, {"trace": sent})

    assert not form.is_valid()
    assert "more than 4000000" in form.errors["trace"][0]


def test_the_same_file_again_is_told(bench, induction):
    sends(bench, induction)

    answer = sends(bench, induction, reason="again")

    assert answer.status_code == 422
    assert "kept for the run already, as run-1.csv" in told(answer)
    assert 'value="again"' in told(answer)  # what was typed is not lost


def test_another_file_without_a_reason_is_told_and_to_be_chosen_again(bench, induction):
    sends(bench, induction)

    answer = sends(bench, induction, curves.run_of(24), "run-2.csv")

    assert answer.status_code == 422
    assert "run-1.csv was saved here before. Say why it changes" in told(answer)
    assert "a page does not keep a file: choose it again" in told(answer)
    assert Trace.objects.count() == 1


def test_a_file_for_a_set_that_is_not_asked_for_is_refused(bench, induction):
    sends(bench, induction)

    answer = sends(bench, induction, curves.run_of(24), set="7")

    assert answer.status_code == 409
    assert "No set 7 is asked for now" in told(answer)


def test_a_test_without_a_curve_has_no_such_address(bench, sample):
    worked = [sample.number, "worked-penetration"]

    assert bench.post(reverse("bench:curve", args=worked)).status_code == 404
    assert bench.post(reverse("bench:curve-judge", args=worked)).status_code == 404
