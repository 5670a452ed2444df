#pragma once

// The members of each struct that crosses into Python.

#include "state.hpp"

namespace levelswap::bindings {

#define LEVELSWAP_SHAPE(type, ...)                                     \
    template <>                                                        \
    struct Shape<type> {                                               \
        static constexpr auto members = std::make_tuple(__VA_ARGS__);  \
    };

LEVELSWAP_SHAPE(SourceSpan, &SourceSpan::file, &SourceSpan::line, &SourceSpan::column, &SourceSpan::length)
LEVELSWAP_SHAPE(Diagnostic, &Diagnostic::code, &Diagnostic::severity, &Diagnostic::where, &Diagnostic::also,
                &Diagnostic::message, &Diagnostic::expected, &Diagnostic::hint, &Diagnostic::excerpt,
                &Diagnostic::also_excerpt, &Diagnostic::context_line, &Diagnostic::context)

LEVELSWAP_SHAPE(Curve, &Curve::points)
LEVELSWAP_SHAPE(Origin, &Origin::where, &Origin::text, &Origin::kind, &Origin::remembered)
LEVELSWAP_SHAPE(Fact, &Fact::nature, &Fact::lo, &Fact::hi, &Fact::must, &Fact::may, &Fact::curve,
                &Fact::reference, &Fact::origin)
LEVELSWAP_SHAPE(Output, &Output::name, &Output::facts)
LEVELSWAP_SHAPE(Part, &Part::id, &Part::kind, &Part::about, &Part::facts, &Part::outputs)
LEVELSWAP_SHAPE(Bounds, &Bounds::over, &Bounds::at_most)
LEVELSWAP_SHAPE(PackRow, &PackRow::figure, &PackRow::value, &PackRow::clause, &PackRow::remembered,
                &PackRow::because, &PackRow::services, &PackRow::codes, &PackRow::kinds, &PackRow::firings,
                &PackRow::mawp, &PackRow::heat_input, &PackRow::jurisdiction, &PackRow::pack, &PackRow::where, &PackRow::text)
LEVELSWAP_SHAPE(HouseRule, &HouseRule::kind, &HouseRule::attribute, &HouseRule::comparison,
                &HouseRule::literal, &HouseRule::other, &HouseRule::other_of_vessel, &HouseRule::because, &HouseRule::pack, &HouseRule::where,
                &HouseRule::text)
LEVELSWAP_SHAPE(Pack, &Pack::name, &Pack::title, &Pack::edition, &Pack::rows, &Pack::house)
LEVELSWAP_SHAPE(Catalog, &Catalog::parts, &Catalog::packs, &Catalog::directory)

LEVELSWAP_SHAPE(MeasuredOutput, &MeasuredOutput::output, &MeasuredOutput::attribute, &MeasuredOutput::fact)
LEVELSWAP_SHAPE(Position, &Position::name, &Position::role, &Position::station, &Position::circuit,
                &Position::line, &Position::holds, &Position::measured,
                &Position::measured_outputs, &Position::where)
LEVELSWAP_SHAPE(Station, &Station::name, &Station::positions, &Station::facts, &Station::glass_on_vessel,
                &Station::line)
LEVELSWAP_SHAPE(Line, &Line::name, &Line::positions, &Line::facts)
LEVELSWAP_SHAPE(Circuit, &Circuit::name, &Circuit::positions, &Circuit::facts, &Circuit::line)
LEVELSWAP_SHAPE(OutputRef, &OutputRef::position, &OutputRef::output)
LEVELSWAP_SHAPE(Function, &Function::duty, &Function::circuit, &Function::now, &Function::where)
LEVELSWAP_SHAPE(Site, &Site::name, &Site::file, &Site::vessel, &Site::stations, &Site::circuits,
                &Site::lines, &Site::positions, &Site::functions, &Site::functions_complete, &Site::packs,
                &Site::jurisdiction)
LEVELSWAP_SHAPE(BoundSite, &BoundSite::site, &BoundSite::part_ids, &BoundSite::pack_names)
LEVELSWAP_SHAPE(Swap, &Swap::site_file, &Swap::about, &Swap::put, &Swap::old_may_return, &Swap::where,
                &Swap::part_where, &Swap::file)

LEVELSWAP_SHAPE(Finding, &Finding::rule, &Finding::title, &Finding::level, &Finding::state, &Finding::subject,
                &Finding::quantity, &Finding::required, &Finding::available, &Finding::margin,
                &Finding::source, &Finding::why, &Finding::facts, &Finding::used, &Finding::notes, &Finding::positions,
                &Finding::before)
LEVELSWAP_SHAPE(Question, &Question::fact, &Question::how, &Question::threshold, &Question::rule, &Question::subject)
LEVELSWAP_SHAPE(Shift, &Shift::output, &Shift::level, &Shift::shift, &Shift::condition, &Shift::direction)
LEVELSWAP_SHAPE(Difference, &Difference::function, &Difference::what, &Difference::before,
                &Difference::after, &Difference::moved)
LEVELSWAP_SHAPE(Work, &Work::position, &Work::isolate, &Work::drain, &Work::cool, &Work::consumables,
                &Work::note)
LEVELSWAP_SHAPE(Repair, &Repair::positions, &Repair::tuples, &Repair::more, &Repair::outage,
                &Repair::question, &Repair::work)
LEVELSWAP_SHAPE(BlockedRemedy, &BlockedRemedy::position, &BlockedRemedy::part, &BlockedRemedy::cures,
                &BlockedRemedy::reason)
LEVELSWAP_SHAPE(RuledOut, &RuledOut::position, &RuledOut::removed_by, &RuledOut::nearest_miss)
LEVELSWAP_SHAPE(Alternatives, &Alternatives::keep, &Alternatives::release, &Alternatives::undecided,
                &Alternatives::blocked, &Alternatives::ruled_out, &Alternatives::keep_blockers,
                &Alternatives::release_blockers, &Alternatives::keep_searched, &Alternatives::release_searched,
                &Alternatives::needed, &Alternatives::fits_as_it_was, &Alternatives::complete_up_to, &Alternatives::checks)
LEVELSWAP_SHAPE(Certificate, &Certificate::kind, &Certificate::wiring, &Certificate::settings, &Certificate::facts,
                &Certificate::rules)
LEVELSWAP_SHAPE(Verdict, &Verdict::outcome, &Verdict::proved, &Verdict::once_measured, &Verdict::answer, &Verdict::reason,
                &Verdict::before, &Verdict::findings, &Verdict::site_work, &Verdict::once_site_work_is_done,
                &Verdict::if_assumed, &Verdict::assumptions, &Verdict::works, &Verdict::wiring,
                &Verdict::settings, &Verdict::questions, &Verdict::packs, &Verdict::cautions,
                &Verdict::changes, &Verdict::remarks, &Verdict::shifts, &Verdict::differences, &Verdict::work,
                &Verdict::ask_always, &Verdict::certificate)
LEVELSWAP_SHAPE(RuleInfo, &RuleInfo::id, &RuleInfo::family, &RuleInfo::title, &RuleInfo::level,
                &RuleInfo::source, &RuleInfo::protects, &RuleInfo::figure, &RuleInfo::reads)

#undef LEVELSWAP_SHAPE

/// A table keeps its owner beside its facts: the places of the facts follow from it.
template <>
struct State<FactTable> {
    static py::object save(FactTable const& table) {
        return py::make_tuple(State<Owner>::save(table.owner()), State<std::vector<Fact>>::save(table.all()));
    }
    static FactTable load(py::handle state) {
        auto const items = state.cast<py::tuple>();
        FactTable table(State<Owner>::load(items[0]));
        auto const facts = State<std::vector<Fact>>::load(items[1]);
        for (auto const& row : attributes()) {
            int const slot = slot_of(table.owner(), row.id);
            if (slot >= 0) table.set(row.id, facts.at(static_cast<std::size_t>(slot)));
        }
        return table;
    }
};

}  // namespace levelswap::bindings
