#include "read_facts.hpp"

#include "document/text.hpp"

#include <fmt/format.h>

namespace levelswap::reading {

namespace {

/// What must be so between two facts of one owner, whatever values they have.
struct Order {
    Attribute first, second;
    enum class Kind { below, not_above, within } kind;
    std::string_view words;   ///< between the two names
};
constexpr Order orders[] = {
    {Attribute::stop_low, Attribute::stop_high, Order::Kind::below, "must lie below"},
    {Attribute::visible_low, Attribute::visible_high, Order::Kind::below, "must lie below"},
    {Attribute::lpwl, Attribute::nwl, Order::Kind::not_above, "must not lie above"},
    {Attribute::mawp, Attribute::hydrotest, Order::Kind::not_above, "must not be above"},
    {Attribute::mounting, Attribute::mounting_may_be, Order::Kind::within, "must lie within"},
};

bool stated(Fact const* fact) {
    return fact && fact->origin && (fact->nature == Fact::Nature::uncertain || fact->nature == Fact::Nature::varying);
}

/// Only what no value of either can satisfy: a tolerance that overlaps may still be right.
bool contradicts(Order const& order, Fact const& x, Fact const& y) {
    switch (order.kind) {
        case Order::Kind::below: return x.lo >= y.hi;
        case Order::Kind::not_above: return x.lo > y.hi;
        case Order::Kind::within: return x.hi < y.lo || x.lo > y.hi;
    }
    return false;
}

}  // namespace

void check_order(FileReader& reader, FactTable const& table, std::string_view what) {
    auto const& file = reader.document().file;
    document::Document const elsewhere;
    for (Order const& order : orders) {
        Fact const *x = table.find(order.first), *y = table.find(order.second);
        if (!stated(x) || !stated(y) || !contradicts(order, *x, *y)) continue;
        bool const x_here = x->origin->where.file == file, y_here = y->origin->where.file == file;
        if (!x_here && !y_here) continue;
        Fact const& at = y_here ? *y : *x;
        Fact const& also = y_here ? *x : *y;
        reader.clash("LS-C016", at.origin->where, x_here && y_here ? reader.document() : elsewhere, also.origin->where,
                     fmt::format("\"{}\" ({}) {} \"{}\" ({}) of {}", row_of(order.first).name, document::shown_text(x->origin->text),
                                 order.words, row_of(order.second).name, document::shown_text(y->origin->text), what),
                     "check both figures and their units; one of them is wrong");
    }
}

}  // namespace levelswap::reading
