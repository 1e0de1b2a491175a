"""The words of a certificate in English."""

NUMBERS = (
    *("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    *("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen"),
    *("seventeen", "eighteen", "nineteen", "twenty"),
)

LABELS = {
    # places of sampling
    "the after mill": "the line after the mill",
    "the bulk": "the bulk load",
}

RULES = {"simple acceptance": "simple acceptance, without a guard band"}

PROCEDURES = {
    "rounding": "Each reported value, rounded once to the last place of its limit (half to even), is compared with the limit.",
    "absolute": "Each reported value is compared with the limit as it stands, without rounding.",
}

WORDS = {
    # head
    "title": "Certificate of analysis",
    "preview": "Preview of a certificate of analysis",
    "revision": "revision",
    "issued": "issued",
    "not_issued": "no number, not issued",
    "not_authorised_not_issued": "no number, not authorised, not issued",
    "check": "Genuine and still valid? Scan, or type",
    "qr_alt": "QR code of the check address printed beside it",
    # margins
    "page": "page",
    "of": "of",
    "continued": "continued",
    "preview_running": "Preview, not a certificate",
    "printed": "printed",
    # subject and facts
    "batch": "batch",
    "lot": "fill lot",
    "item": "Item",
    "dates": "Dates",
    "customer": "Customer and order",
    "days": "{first} to {last}",
    # finding
    "all_met": "All {n} requirements met.",
    "both_met": "Both requirements met.",
    "one_met": "The one requirement is met.",
    "some_met": "{k} of {n} requirements met.",
    "some_not_met": "{k} of {n} requirements",
    "one_not_met": "The one requirement",
    "nothing_to_meet": "Results reported; no requirement has a limit.",
    "so_far": "So far:",
    "this_not_met": "Requirement not met: {names}.",
    "these_not_met": "Requirements not met: {names}.",
    "are_not_tested": "Not tested: {names}.",
    "are_not_evaluated": "Not evaluated: {names}.",
    "all_on_lot": "All were tested on this lot.",
    "it_on_lot": "It was tested on this lot.",
    "one_on_lot": "{n} was tested on this lot",
    "some_on_lot": "{n} were tested on this lot",
    "line_on_batch": "line {lines} was tested on this batch",
    "lines_on_batch": "lines {lines} were tested on this batch",
    "line_periodic": "line {lines} is periodic",
    "lines_periodic": "lines {lines} are periodic",
    "and": "and",
    "not_for_release": "Not authorised: nothing here may be used for release or delivery.",
    "not_for_delivery": "Not issued: nothing here may be used for delivery.",
    # results
    "results": "Results against",
    "line": "Line",
    "characteristic": "Characteristic",
    "method": "Method, edition",
    "unit": "Unit",
    "lower": "Lower limit",
    "upper": "Upper limit",
    "result": "Result",
    "verdict": "Verdict",
    "tested_on_this_lot": "Tested on this lot",
    "unless_marked": "unless the row says otherwise",
    "periodic": "periodic",
    "on_this_batch": "this batch",
    "periodic_head": "Periodic: tested on",
    "batch_head": "Tested on this batch:",
    "valid_until": "valid until {day}",
    "valid_batches": "valid for {n} batches",
    "valid_both": "valid until {day} or for {n} batches",
    "met": "met",
    "not met": "not met",
    "not tested": "not tested",
    "not evaluated": "not evaluated",
    "report_only": "report only",
    "none": "–",
    # foot
    "specification": "specification {name}, revision {revision}",
    "plan": "plan {code}",
    "typical": "Typical values: not results",
    "typical_note": "From past production; not measured on this lot, not held against a limit.",
    "statement": "Statement and rule",
    "held_against": "Fill lot {lot} was held against {specification}, in force since {day}.",
    "decision_rule": "Decision rule: {rule}.",
    "line_compared": "Line {lines}: {sentence}",
    "lines_compared": "Lines {lines}: {sentence}",
    "censored": "A value with > or < is met only when every value it may stand for is met.",
    "sampled_from_by": "Sampled from {place} by {plan}.",
    "sampled_from": "Sampled from {place}.",
    "sampled_by": "Sampled by {plan}.",
    "items_tested": "The results relate only to the items tested; copy only in full.",
    "authorised": "Authorised",
    "meaning": "Meaning",
    "electronic": "Signed electronically in the record; valid without a handwritten signature.",
    "not_authorised": "Not authorised",
    "awaiting": "awaiting the laboratory manager",
    "what_is_missing": "A certificate has a number, a check address with QR code and a named authoriser. This page is none.",
    # label
    "taken": "Taken {day}",
    "label_title": "Sample label",
    "label_qr_alt": "QR code of the sample number",
    # close
    "cautions": "Usual cautions: the safety data sheet first; follow local codes and the licensed or competent person.",
    "record": "Record at issue: {entries} entries, head {head}",
    "end": "End of certificate",
    "end_preview": "End of preview",
}
