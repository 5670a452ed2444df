#pragma once

#include "levelswap/catalog/part.hpp"

#include <array>
#include <string>
#include <vector>

namespace levelswap {

/// What a position is for: it fixes the kinds of part that may be put there.
enum class Role : std::uint8_t {
    head, switch_half, column, float_, switch_set, glass,   // at a station
    contactor, relay, transformer, converter,               // in a circuit
};
inline constexpr int station_role_count = 6;
inline constexpr int role_count = 10;
std::string_view name_of(Role role);
std::vector<Owner> accepted_kinds(Role role);

enum class Duty : std::uint8_t {
    primary_cut_off, secondary_cut_off, pump, modulating_feed, low_alarm, high_alarm,
};
inline constexpr int duty_count = 6;
std::string_view name_of(Duty duty);
std::string_view words_of(Duty duty);

inline constexpr int nothing = -1;

/// A fixed place of the site that holds one part, or nothing.
struct Position {
    std::string name;                 ///< "primary.head", "pump_circuit.contactor"
    Role role = Role::head;
    int station = -1;                 ///< or
    int circuit = -1;
    int holds = nothing;              ///< index in the catalogue
    std::vector<std::pair<Attribute, Fact>> measured;  ///< on the part held now: leaves with it
    SourceSpan where;
};

/// A column on the vessel with what hangs on it.
struct Station {
    std::string name;
    std::array<int, station_role_count> positions{-1, -1, -1, -1, -1, -1};
    FactTable facts{Owner::station};
    bool glass_on_vessel = true;
};

/// A chain from supply to load.
struct Circuit {
    std::string name;
    int contactor = -1, relay = -1, transformer = -1, converter = -1;  ///< positions
    FactTable facts{Owner::circuit};
};

/// An output by the position that holds its switch set.
struct OutputRef {
    int position = -1;
    int output = -1;
    friend auto operator<=>(OutputRef const&, OutputRef const&) = default;
};

/// A duty that some output must perform in a circuit.
struct Function {
    Duty duty = Duty::primary_cut_off;
    int circuit = -1;
    OutputRef now;
    SourceSpan where;
};

struct Site {
    std::string name;
    std::string file;
    FactTable vessel{Owner::vessel};
    std::vector<Station> stations;
    std::vector<Circuit> circuits;
    std::vector<Position> positions;
    std::vector<Function> functions;
    bool functions_complete = false;
    std::vector<int> packs;           ///< indices in the catalogue

    [[nodiscard]] int find_position(std::string_view name) const;
    [[nodiscard]] std::vector<std::string> position_names() const;
};

/// What is proposed at a site.
struct Swap {
    std::string site_file;                             ///< as written, relative to the swap file
    std::string about;
    std::vector<std::pair<std::string, std::string>> put;   ///< position, part id or "nothing"
    bool old_may_return = false;
    std::vector<SourceSpan> where;
    std::string file;
};

/// Reads a site file against a catalogue. Raises DataError with every problem.
Site read_site(std::string const& file, Catalog const& catalog);
/// Reads a swap file. Raises DataError.
Swap read_swap(std::string const& file);

/// The part at each position.
using Assignment = std::vector<int>;
Assignment installed(Site const& site);
/// `installed` with `put` applied. Raises UsageError for an unknown position or part, or a kind that the
/// position does not accept, and suggests the nearest name.
Assignment proposed(Site const& site, Catalog const& catalog,
                    std::vector<std::pair<std::string, std::string>> const& put);

}  // namespace levelswap
