#pragma once

#include "levelswap/base/diagnostic.hpp"
#include "levelswap/catalog/attribute.hpp"

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace levelswap {

/// Points of a pressure rating against temperature, in quanta (mK, Pa), rising in temperature.
/// Between the points it is a straight line (ASME B16.1, B16.5); beyond the hottest there is no rating.
struct Curve {
    std::vector<std::pair<double, double>> points;
    [[nodiscard]] Interval at(Interval temperature) const;
    friend bool operator==(Curve const&, Curve const&) = default;
};

/// Where a fact comes from: printed with an answer, never part of its truth.
struct Origin {
    SourceSpan where;
    std::string text;      ///< as written in the file
    std::string kind;      ///< catalogue, data plate, measured, standard table, assumed
    bool remembered = false;
};

/// What is known of one attribute of one owner.
struct Fact {
    enum class Nature : std::uint8_t { unknown, uncertain, varying, none };
    Nature nature = Nature::unknown;
    double lo = 0;             ///< quantity, in quanta; the whole domain when unknown
    double hi = 0;
    std::uint64_t must = 0;    ///< set: certainly in it
    std::uint64_t may = 0;     ///< choice: the possible ones; set: possibly in it
    std::shared_ptr<Curve const> curve;
    std::string reference;
    std::shared_ptr<Origin const> origin;

    /// Equal for every rule: origin and text do not count.
    [[nodiscard]] bool same_for_rules(Fact const& other) const;
};

/// The fact that says nothing: the attribute's whole declared domain.
Fact unknown_fact(Attribute attribute);

/// The facts of one owner, one place for each attribute it can have.
class FactTable {
public:
    explicit FactTable(Owner owner);
    [[nodiscard]] Owner owner() const { return owner_; }
    [[nodiscard]] Fact const* find(Attribute attribute) const {
        int const slot = slot_of(owner_, attribute);
        return slot < 0 ? nullptr : &facts_[static_cast<std::size_t>(slot)];
    }
    void set(Attribute attribute, Fact fact);
    [[nodiscard]] std::vector<Fact> const& all() const { return facts_; }

private:
    Owner owner_;
    std::vector<Fact> facts_;
};

}  // namespace levelswap
