#pragma once

#include "levelswap/catalog/part.hpp"

#include <array>
#include <string>
#include <vector>

namespace levelswap {

/// What a position is for: it fixes the kinds of part that may be put there.
enum class Role : std::uint8_t {
    head, switch_half, column, float_, switch_set, glass,       // at a station
    probe_holder, probe_relay, transmitter, float_control, float_valve,
    contactor, relay, transformer, converter,                   // in a circuit
    solenoid_valve, reducing_valve, feed_valve, actuator, pump,       // in a feed line
};
inline constexpr int station_role_count = 11;
inline constexpr int circuit_role_end = 15;
inline constexpr int role_count = 20;
std::string_view name_of(Role role);
std::vector<Owner> accepted_kinds(Role role);
/// Parts at such a position have outputs.
bool has_outputs(Role role);
/// To change what is there opens the pressure part or the water side.
bool opens_water_side(Role role);

enum class Duty : std::uint8_t {
    primary_cut_off, secondary_cut_off, pump, modulating_feed, low_alarm, high_alarm, make_up,
};
inline constexpr int duty_count = 7;
std::string_view name_of(Duty duty);
std::string_view words_of(Duty duty);
constexpr bool is_cut_off(Duty duty) { return duty == Duty::primary_cut_off || duty == Duty::secondary_cut_off; }

inline constexpr int nothing = -1;

/// A position in a set of positions; no position is in none.
constexpr std::uint64_t bit_of(int position) { return position < 0 ? 0 : std::uint64_t{1} << position; }

/// A fact that was measured on one output of the part at a position.
struct MeasuredOutput {
    int output = 0;                   ///< index in the part
    Attribute attribute = Attribute::cost;
    Fact fact;
};

/// A fixed place of the site that holds one part, or nothing.
struct Position {
    std::string name;                 ///< "primary.head", "pump_circuit.contactor"
    Role role = Role::head;
    int station = -1;                 ///< or
    int circuit = -1;                 ///< or
    int line = -1;
    int holds = nothing;              ///< index in the catalogue
    std::vector<std::pair<Attribute, Fact>> measured;  ///< on the part held now: leaves with it
    std::vector<MeasuredOutput> measured_outputs;      ///< on its outputs
    SourceSpan where;
};

/// No position of any role.
template <std::size_t Count>
constexpr std::array<int, Count> no_positions() {
    std::array<int, Count> none{};
    none.fill(-1);
    return none;
}

/// A place where the level is sensed: a column, a tapping or the tank itself, with what hangs on it.
struct Station {
    std::string name;
    std::array<int, station_role_count> positions = no_positions<station_role_count>();
    FactTable facts{Owner::station};
    bool glass_on_vessel = true;
    bool face_is_new = false;         ///< its mounting is that of the column to come: a setting that was chosen
    int line = -1;                    ///< the feed line that what stands here opens and shuts
};

/// A feed line: from a supply of water to the vessel.
struct Line {
    std::string name;
    std::array<int, role_count - circuit_role_end> positions = no_positions<role_count - circuit_role_end>();
    FactTable facts{Owner::line};
    [[nodiscard]] int position(Role role) const { return positions[static_cast<std::size_t>(role) - circuit_role_end]; }
};

/// A chain from supply to load.
struct Circuit {
    std::string name;
    std::array<int, circuit_role_end - station_role_count> positions = no_positions<circuit_role_end - station_role_count>();
    FactTable facts{Owner::circuit};
    int line = -1;                    ///< the feed line whose valve, actuator or pump is its load
    bool several_coils = false;       ///< its inrush and holding load are the sum of several
    [[nodiscard]] int position(Role role) const { return positions[static_cast<std::size_t>(role) - station_role_count]; }
};

/// An output by the position that holds its part.
struct OutputRef {
    int position = -1;
    int output = -1;
    friend auto operator<=>(OutputRef const&, OutputRef const&) = default;
};

/// A duty that some output must perform, in a circuit unless it is a mechanical feed.
struct Function {
    Duty duty = Duty::primary_cut_off;
    int circuit = -1;                 ///< −1: no circuit, as of a float valve
    OutputRef now;
    SourceSpan where;
};

struct Site {
    std::string name;
    std::string file;
    FactTable vessel{Owner::vessel};
    std::vector<Station> stations;
    std::vector<Circuit> circuits;
    std::vector<Line> lines;
    std::vector<Position> positions;
    std::vector<Function> functions;
    bool functions_complete = false;
    std::vector<int> packs;           ///< indices in the catalogue
    std::string jurisdiction;         ///< whose code is in force here; empty: not known

    [[nodiscard]] int find_position(std::string_view name) const;
    [[nodiscard]] std::vector<std::string> position_names() const;
};

/// What is proposed at a site.
struct Swap {
    std::string site_file;                             ///< as written, relative to the swap file
    std::string about;
    std::vector<std::pair<std::string, std::string>> put;   ///< position, part id or "nothing"
    bool old_may_return = false;
    std::vector<SourceSpan> where;                     ///< of each position
    std::vector<SourceSpan> part_where;                ///< of each part
    std::string file;
};

/// Reads a site file against a catalogue. Raises DataError with every problem.
Site read_site(std::string const& file, Catalog const& catalog);
/// Reads a swap file. Raises DataError.
Swap read_swap(std::string const& file);
/// Reads the site that a swap file names. Raises DataError with every problem of the site; when it has none, with
/// every entry of the swap that names a position or a part that is not there, or a part of the wrong kind.
Site read_site_of(Swap const& swap, Catalog const& catalog);

/// The part at each position.
using Assignment = std::vector<int>;
Assignment installed(Site const& site);
/// `installed` with `put` applied. Raises UsageError for an unknown position or part, or a kind that the
/// position does not accept, and suggests the nearest name.
Assignment proposed(Site const& site, Catalog const& catalog,
                    std::vector<std::pair<std::string, std::string>> const& put);

}  // namespace levelswap
