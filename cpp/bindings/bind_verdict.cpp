#include "properties.hpp"

namespace levelswap::bindings {

namespace {

Verdict judge(Catalog const& catalog, BoundSite const& site, Put const& put, std::string const& units) {
    require_same_catalog(catalog, site);
    return check(catalog, site.site, pairs_of(put), units_of(units));
}

std::string word_of(Outcome outcome) {
    switch (outcome) {
        case Outcome::fits: return "FITS";
        case Outcome::does_not_fit: return "DOES_NOT_FIT";
        default: return "CANNOT_TELL";
    }
}

std::string repr(Finding const& self) {
    return repr_of("Finding", {{"rule", ascii(self.rule)},
                               {"state", ascii(self.state)},
                               {"subject", ascii(self.subject)},
                               {"required", ascii(self.required)},
                               {"available", ascii(self.available)},
                               {"margin", ascii(self.margin)}});
}

std::string repr(Verdict const& self) {
    return repr_of("Verdict", {{"outcome", "Outcome." + word_of(self.outcome)},
                               {"findings", std::to_string(self.findings.size())},
                               {"questions", std::to_string(self.questions.size())},
                               {"answer", ascii(self.answer)}});
}

std::string html_of(Verdict const& self) {
    auto const* start = "<pre class=\"levelswap\" style=\"white-space: pre-wrap\">";
    return start + escape_html(render_text(self)) + "</pre>";
}

void bind_outcome(py::module_& module) {
    py::native_enum<Outcome>(module, "Outcome", "enum.Enum", "What is known of a swap.")
        .value("FITS", Outcome::fits)
        .value("DOES_NOT_FIT", Outcome::does_not_fit)
        .value("CANNOT_TELL", Outcome::cannot_tell)
        .finalize();
}

void bind_finding(py::module_& module) {
    py::class_<Finding> bound(module, "Finding", "One comparison that decides something, with its numbers.");
    show_member(bound, "rule", &Finding::rule, "Id of the rule.");
    show_member(bound, "title", &Finding::title, "What the rule is about.");
    show_member(bound, "level", &Finding::level, "How strongly the rule binds.");
    show_member(bound, "state", &Finding::state, "'fails', 'undecided' or 'holds'.");
    show_member(bound, "subject", &Finding::subject, "What is judged.");
    show_member(bound, "quantity", &Finding::quantity, "The quantity that is compared.");
    show_member(bound, "required", &Finding::required, "What is required, with its unit.");
    show_member(bound, "available", &Finding::available, "What there is, with its unit.");
    show_member(bound, "margin", &Finding::margin, "What is to spare, with its unit; negative when short.");
    show_member(bound, "source", &Finding::source, "Where the requirement comes from.");
    show_member(bound, "why", &Finding::why, "One sentence on why it matters.");
    show_member(bound, "facts", &Finding::facts, "The facts it rests on, each with its origin.");
    show_member(bound, "used", &Finding::used,
                "Further facts behind the figures; the rule fails whatever each of them is.");
    show_member(bound, "notes", &Finding::notes, "What was worked out on the way.");
    show_member(bound, "positions", &Finding::positions, "The positions it concerns.");
    show_member(bound, "before", &Finding::before, "Whether it was already so before the swap.");
    bound.def("__repr__", [](Finding const& self) { return repr(self); });
    give_value_manners(bound);
}

void bind_question(py::module_& module) {
    py::class_<Question> bound(module, "Question", "A measurement that would settle an open rule.");
    show_member(bound, "fact", &Question::fact, "What to find out.");
    show_member(bound, "how", &Question::how, "Who can find it out, and how.");
    show_member(bound, "threshold", &Question::threshold, "The value that settles it, with its unit.");
    show_member(bound, "rule", &Question::rule, "Id of the rule that is open.");
    show_member(bound, "subject", &Question::subject, "Where the rule stands, as in a finding.");
    bound.def("__repr__", [](Question const& self) {
        return repr_of("Question", {{"fact", ascii(self.fact)}, {"threshold", ascii(self.threshold)}});
    });
    give_value_manners(bound);
}

void bind_shift(py::module_& module) {
    py::class_<Shift> bound(module, "Shift", "How cooler water in an outside column shifts an output.");
    show_member(bound, "output", &Shift::output, "The function and its output.");
    show_member(bound, "level", &Shift::level, "Where it acts in the column, above the water connection.");
    show_member(bound, "shift", &Shift::shift, "How much higher the boiler's water then stands, with unit.");
    show_member(bound, "condition", &Shift::condition, "What is assumed of the water in the column.");
    show_member(bound, "direction", &Shift::direction, "What that means, and on which side it lies.");
    bound.def("__repr__", [](Shift const& self) {
        return repr_of("Shift", {{"output", ascii(self.output)}, {"shift", ascii(self.shift)}});
    });
    give_value_manners(bound);
}

void bind_difference(py::module_& module) {
    py::class_<Difference> bound(module, "Difference", "What a function does otherwise after the swap.");
    show_member(bound, "function", &Difference::function, "The function.");
    show_member(bound, "what", &Difference::what, "What differs.");
    show_member(bound, "before", &Difference::before, "How it was, with unit.");
    show_member(bound, "after", &Difference::after, "How it will be, with unit.");
    show_member(bound, "moved", &Difference::moved, "By how much, with unit; empty when it is no number.");
    bound.def("__repr__", [](Difference const& self) {
        return repr_of("Difference", {{"function", ascii(self.function)},
                                      {"what", ascii(self.what)},
                                      {"before", ascii(self.before)},
                                      {"after", ascii(self.after)}});
    });
    give_value_manners(bound);
}

void bind_certificate(py::module_& module) {
    py::class_<Certificate> bound(module, "Certificate", "What something simpler can check the outcome by.");
    show_member(bound, "kind", &Certificate::kind,
                "\"setting sheet\" of a fit, \"conflict\" of a refusal, \"world\" of a \"cannot tell\", or \"none\".");
    show_member(bound, "wiring", &Certificate::wiring, "Pairs of duty and the position and output that performs it.");
    show_member(bound, "settings", &Certificate::settings, "Pairs of setting and one value of its window, with unit.");
    show_member(bound, "facts", &Certificate::facts, "Pairs of an open fact and its value in that world, with unit.");
    show_member(bound, "rules", &Certificate::rules, "Rules that fail, alone or together.");
    bound.def("__repr__", [](Certificate const& self) { return repr_of("Certificate", {{"kind", ascii(self.kind)}}); });
    give_value_manners(bound);
}

void show_members(py::class_<Verdict>& bound) {
    show_member(bound, "outcome", &Verdict::outcome, "Fits, does not fit, or cannot tell.");
    show_member(bound, "proved", &Verdict::proved, "Whether the outcome is proved for every case it covers.");
    show_member(bound, "once_measured", &Verdict::once_measured,
                "Whether every world has settings that do, though no one setting is right in all of them.");
    show_member(bound, "answer", &Verdict::answer, "The answer in one line.");
    show_member(bound, "reason", &Verdict::reason, "The reason in one sentence.");
    show_member(bound, "before", &Verdict::before, "The outcome for what is installed now.");
    show_member(bound, "findings", &Verdict::findings,
                "What fails, then what is open; the one nearest to the change first.");
    show_member(bound, "site_work", &Verdict::site_work,
                "Faults before the swap that touch no changed position.");
    show_member(bound, "once_site_work_is_done", &Verdict::once_site_work_is_done,
                "The outcome once those faults are cured, or None.");
    show_member(bound, "if_assumed", &Verdict::if_assumed, "The outcome under the assumptions, or None.");
    show_member(bound, "assumptions", &Verdict::assumptions, "What that outcome assumes.");
    show_member(bound, "works", &Verdict::works, "What still works.");
    show_member(bound, "wiring", &Verdict::wiring, "Pairs of duty and the output that performs it.");
    show_member(bound, "settings", &Verdict::settings, "Pairs of setting and its window, with unit.");
    show_member(bound, "questions", &Verdict::questions, "Measurements that would settle what is open.");
    show_member(bound, "packs", &Verdict::packs, "The rule packs that apply.");
    show_member(bound, "cautions", &Verdict::cautions, "What to heed before work starts.");
    show_member(bound, "changes", &Verdict::changes, "What changes, by position.");
    show_member(bound, "remarks", &Verdict::remarks, "Remarks.");
    show_member(bound, "shifts", &Verdict::shifts,
                "How cooler water in an outside column shifts each output; reported, never judged.");
    show_member(bound, "differences", &Verdict::differences,
                "What each function does otherwise afterwards, also where both are allowed.");
    show_member(bound, "work", &Verdict::work, "What each change asks of the works.");
    show_member(bound, "ask_always", &Verdict::ask_always, "Questions that belong to every replacement.");
    show_member(bound, "certificate", &Verdict::certificate, "What something simpler can check the outcome by.");
}

void bind_verdict_class(py::module_& module) {
    using Instead = std::optional<Alternatives>;
    py::class_<Verdict> bound(module, "Verdict", "The judgement of a swap, with everything that carries it.");
    show_members(bound);
    bound.def("__bool__", [](Verdict const&) -> bool {
        throw py::type_error("a verdict is neither true nor false, since it may be that nobody can tell; "
                             "compare verdict.outcome, for example verdict.outcome is Outcome.FITS");
    });
    bound.def(
        "to_text", [](Verdict const& self, Instead const& instead) { return render_text(self, instead); },
        py::arg("alternatives") = py::none(),
        "Return the text that the command line shows, with the alternatives if given.");
    bound.def(
        "to_json", [](Verdict const& self, Instead const& instead) { return render_json(self, instead); },
        py::arg("alternatives") = py::none(),
        "Return a JSON document that ``catalog_schema/v1/answer.schema.json`` describes.");
    bound.def("_repr_html_", &html_of);
    bound.def("__str__", [](Verdict const& self) { return self.answer; });
    bound.def("__repr__", [](Verdict const& self) { return repr(self); });
    give_value_manners(bound);
}

}  // namespace

void bind_verdict(py::module_& module) {
    bind_outcome(module);
    bind_finding(module);
    bind_question(module);
    bind_shift(module);
    bind_certificate(module);
    bind_difference(module);
    bind_verdict_class(module);
    module.def("check", &judge, py::arg("catalog"), py::arg("site"), py::kw_only(), py::arg("put"),
               py::arg("units") = "us", py::call_guard<py::gil_scoped_release>(),
               "Judge a swap.\n\n"
               "Parameters\n----------\n"
               "catalog : Catalog\n    The parts.\n"
               "site : Site\n    Read against the same catalogue.\n"
               "put : mapping of str to str\n    The proposed part id, or 'nothing', by position.\n"
               "units : {'us', 'si'}\n    Units of the numbers in the texts: inch and psi, or mm and bar.\n\n"
               "Returns\n-------\nVerdict\n    A swap that does not fit is a result, not an error.\n\n"
               "Raises\n------\nUsageError\n"
               "    For an unknown position or part, or a part of the wrong kind; names the nearest.");
}

}  // namespace levelswap::bindings
