#include "interfaces.hpp"

#include "choices.hpp"
#include "feed_direction.hpp"
#include "line_coils.hpp"
#include "rated_voltage.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace levelswap::families::interfaces {

namespace {

using enum From;
using A = Attribute;

template <Dimension D>
Measure<D> distance(Measure<D> x, Measure<D> y) {
    return {abs(x.quanta - y.quanta)};
}

/// One side of a joint missing fails; both missing passes. Returns true when both sides are there.
template <class T>
bool joined(T& t, char const* label, bool one, bool other) {
    if (one && other) return true;
    if (one != other) t.require(label, Truth::fails, "one side of the joint holds nothing", "a part on each side");
    else t.not_applicable();
    return false;
}

/// Thread standard and size are the same, one male and one female. Never matched on nominal size alone. Two flanges
/// have no gender; `flanged` is the word for them among the standards, 0 where there is none.
template <class T>
void threads(T& t, Cell const& standard, Cell const& other_standard, Cell const& gender, Cell const& other_gender,
             Attribute words, std::uint64_t flanged = 0) {
    t.require("thread standard", same_choice(standard, other_standard), Say(words, standard.may),
              Say(words, other_standard.may));
    if (flanged != 0 && (standard.may == flanged || other_standard.may == flanged)) return;
    bool const flanges = (standard.may & other_standard.may & flanged) != 0;   // perhaps
    Truth const opposite = gender.none || other_gender.none ? (flanges ? Truth::undecided : Truth::fails)
                           : (gender.may == other_gender.may && (gender.may & (gender.may - 1)) == 0) ? Truth::fails
                           : ((gender.may & other_gender.may) == 0)                                   ? Truth::holds
                                                                                                       : Truth::undecided;
    t.require("thread gender", opposite, "both sides alike or unknown", "one male, one female");
}

/// How far two bolt patterns are turned against each other. A pattern is the same after every bolt pitch, so a turn by
/// whole pitches is none.
Interval turned(Interval radians, Interval bolts) {
    if (radians.hi == 0) return 0.0;
    if (bolts.lo != bolts.hi || bolts.lo < 1) return {0, radians.hi};
    double const pitch = 2 * std::numbers::pi / bolts.lo;
    auto off = [&](double x) { return std::abs(x - pitch * std::round(x / pitch)); };
    auto inside = [&](double first) { return first + pitch * std::ceil((radians.lo - first) / pitch) <= radians.hi; };
    Interval const ends = hull(off(radians.lo), off(radians.hi));
    return widened({inside(0) ? 0 : ends.lo, inside(pitch / 2) ? pitch / 2 : ends.hi});
}

struct Flange {
    using Scope = Reads<Slot{head, A::flange_circle}, Slot{column, A::flange_circle}, Slot{head, A::flange_bolts},
                        Slot{column, A::flange_bolts}, Slot{head, A::flange_bolt_size},
                        Slot{column, A::flange_bolt_size}, Slot{head, A::flange_hole}, Slot{column, A::flange_hole},
                        Slot{head, A::flange_face}, Slot{column, A::flange_face}, Slot{head, A::flange_spigot},
                        Slot{column, A::flange_spigot}, Slot{head, A::flange_up}, Slot{column, A::flange_up}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!joined(t, "flange", in.has<head, A::flange_circle>(), in.has<column, A::flange_circle>())) return;
        t.at_most("difference in the number of bolts",
                  distance(in.measure<head, A::flange_bolts>(), in.measure<column, A::flange_bolts>()), Count{{0}});
        // A bolt of 16 mm and one of 5/8 in do for one another; the next size of either does not: 0.3 mm is common
        // practice, no source.
        t.at_most("difference in bolt size",
                  distance(in.measure<head, A::flange_bolt_size>(), in.measure<column, A::flange_bolt_size>()),
                  Length{{3e5}});
        // Two plates pass a common bolt when their hole centres are no further apart than the mean of the
        // two clearances.
        Interval const half{0.5};
        auto const clearance = Length{half * (in.measure<head, A::flange_hole>() - in.measure<head, A::flange_bolt_size>() +
                                              (in.measure<column, A::flange_hole>() - in.measure<column, A::flange_bolt_size>())).quanta};
        auto const radial =
            half * distance(in.measure<head, A::flange_circle>(), in.measure<column, A::flange_circle>()).quanta;
        auto const turn = distance(in.measure<head, A::flange_up>(), in.measure<column, A::flange_up>());
        auto const tangential = max(turned(turn.si(), in.measure<head, A::flange_bolts>().quanta), Interval{0}) *
                                (half * in.measure<head, A::flange_circle>().quanta);
        // Both offsets move the same hole: they add as the sides of a right angle.
        bool const only_radial = tangential.hi == 0;
        t.at_most("offset of the bolt holes", Length{only_radial ? radial : sqrt(square(radial) + square(tangential))},
                  clearance);
        auto const& mine = in.cell<head, A::flange_face>();
        auto const& other = in.cell<column, A::flange_face>();
        t.require("gasket faces", faces_mate(mine, other), Say(A::flange_face, mine.may),
                  Say(A::flange_face, other.may, "a face that mates with "));
        spigot(in, t);
    }
    /// A spigot goes into its socket, with no more play than centres the joint: 1 mm on the diameter is common practice,
    /// no source.
    template <class T>
    static void spigot(Scope const& in, T& t) {
        constexpr auto is_spigot = bits<A::flange_face>("spigot");
        auto const mine = in.is<head, A::flange_face>(is_spigot), other = in.is<column, A::flange_face>(is_spigot);
        if (both(mine, other) != Truth::fails || std::max(mine, other) != Truth::holds) return;   // one of each, or the faces say so
        if (in.none<head, A::flange_spigot>() || in.none<column, A::flange_spigot>())
            return t.require("spigot in its socket", Truth::undecided, "no diameter stated", "a spigot and its socket");
        auto const play = mine == Truth::holds ? in.measure<column, A::flange_spigot>() - in.measure<head, A::flange_spigot>()
                                               : in.measure<head, A::flange_spigot>() - in.measure<column, A::flange_spigot>();
        t.at_least("play of the spigot in its socket", play, Length{{0}});
        t.at_most("play of the spigot in its socket", play, Length{{1e6}});
    }
    static Truth faces_mate(Cell const& x, Cell const& y) {
        constexpr auto spigot = bits<A::flange_face>("spigot");
        constexpr auto socket = bits<A::flange_face>("socket");
        auto partner = [](std::uint64_t bit) { return bit == spigot ? socket : bit == socket ? spigot : bit; };
        bool any = false, every = true;
        int const words = choice_count(row_of(A::flange_face));
        for (int i = 0; i < words; ++i)
            for (int j = 0; j < words; ++j)
                if ((x.may >> i & 1u) && (y.may >> j & 1u))
                    (partner(1ull << i) == 1ull << j) ? any = true : every = false;
        return !any ? Truth::fails : every ? Truth::holds : Truth::undecided;
    }
};

struct Tilt {
    using Scope = Reads<Slot{head, A::design_tilt}, Slot{column, A::tilt}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<head, A::design_tilt>() || !in.has<column, A::tilt>()) return t.not_applicable();
        // One degree: common practice, no source. Travel and levels are judged at the column's real tilt.
        t.at_most("difference from the tilt the head is made for",
                  distance(in.measure<head, A::design_tilt>(), in.measure<column, A::tilt>()), Angle{{17453}});
    }
};

struct Opening {
    using Scope = Reads<Slot{float_, A::diameter}, Slot{float_, A::height}, Slot{float_, A::form}, Slot{column, A::opening}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<float_, A::diameter>() || !in.has<column, A::opening>()) return t.not_applicable();
        auto const opening = in.measure<column, A::opening>();
        auto const across = in.measure<float_, A::diameter>();
        Truth const sphere = in.is<float_, A::form>(bits<A::form>("sphere"));
        if (sphere == Truth::holds) return t.at_least("opening", opening, across);
        // A cylinder fixed to its arm goes in turned as the arm stands: whatever way that is, through its diagonal; never
        // through less than the smaller of its diameter and height.
        auto const height = in.measure<float_, A::height>();
        auto const diagonal = sqrt(square(across.quanta) + square(height.quanta));
        Interval const cylinder{std::min(across.quanta.lo, height.quanta.lo), diagonal.hi};
        t.at_least("opening", opening, Length{sphere == Truth::fails ? cylinder : hull(cylinder, across.quanta)});
    }
};

struct Stem {
    using Scope = Reads<Slot{head, A::stem_standard}, Slot{float_, A::stem_standard}, Slot{head, A::stem_size},
                        Slot{float_, A::stem_size}, Slot{head, A::stem_gender}, Slot{float_, A::stem_gender}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!joined(t, "float stem", in.has<head, A::stem_size>(), in.has<float_, A::stem_size>())) return;
        threads(t, in.cell<head, A::stem_standard>(), in.cell<float_, A::stem_standard>(),
                in.cell<head, A::stem_gender>(), in.cell<float_, A::stem_gender>(), A::stem_standard);
        t.at_most("difference in thread size",
                  distance(in.measure<head, A::stem_size>(), in.measure<float_, A::stem_size>()), Length{{0}});
    }
};

struct Thread {
    using Scope = Reads<Slot{column, A::tapping_standard}, Slot{station, A::tapping_standard},
                        Slot{column, A::tapping_size}, Slot{station, A::tapping_size},
                        Slot{column, A::tapping_gender}, Slot{station, A::tapping_gender}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has_place<column, A::tapping_size>()) return t.not_applicable();
        if (!joined(t, "column", in.has<column, A::tapping_size>(), in.has<station, A::tapping_size>())) return;
        threads(t, in.cell<column, A::tapping_standard>(), in.cell<station, A::tapping_standard>(),
                in.cell<column, A::tapping_gender>(), in.cell<station, A::tapping_gender>(), A::tapping_standard,
                bits<A::tapping_standard>("flanged"));
        t.at_most("difference in nominal size",
                  distance(in.measure<column, A::tapping_size>(), in.measure<station, A::tapping_size>()), Length{{0}});
    }
};

/// What is screwed into the vessel, the tank or the pipe of an instrument, against the tapping it goes into.
struct Connection {
    using Scope =
        Reads<Slot{station, A::connection_standard}, Slot{station, A::connection_size}, Slot{station, A::connection_gender},
              Slot{probe_holder, A::connection_standard}, Slot{probe_holder, A::connection_size}, Slot{probe_holder, A::connection_gender},
              Slot{float_control, A::connection_standard}, Slot{float_control, A::connection_size}, Slot{float_control, A::connection_gender},
              Slot{float_valve, A::connection_standard}, Slot{float_valve, A::connection_size}, Slot{float_valve, A::connection_gender},
              Slot{transmitter, A::connection_standard}, Slot{transmitter, A::connection_size}, Slot{transmitter, A::connection_gender}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const any = screws<probe_holder>(in, t) | screws<float_control>(in, t) | screws<float_valve>(in, t) |
                         screws<transmitter>(in, t);
        if (!any) t.not_applicable();
    }
    template <From Part, class T>
    static bool screws(Scope const& in, T& t) {
        if (!in.has<Part, A::connection_size>()) return false;
        threads(t, in.cell<Part, A::connection_standard>(), in.cell<station, A::connection_standard>(),
                in.cell<Part, A::connection_gender>(), in.cell<station, A::connection_gender>(), A::connection_standard,
                bits<A::connection_standard>("flanged"));
        t.at_most("difference in nominal size",
                  distance(in.measure<Part, A::connection_size>(), in.measure<station, A::connection_size>()), Length{{0}});
        return true;
    }
};

struct Bay {
    using Scope = Reads<Slot{head, A::bay_form}, Slot{switch_half, A::bay_form}, Slot{switch_set, A::bay_form},
                        Slot{head, A::bay_spacing}, Slot{switch_half, A::bay_spacing},
                        Slot{switch_set, A::bay_spacing}, Slot{head, A::bay_stroke}, Slot{switch_half, A::bay_stroke},
                        Slot{switch_set, A::bay_stroke}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const on_half = in.has<switch_half, A::bay_form>();
        bool const on_head = in.has<head, A::bay_form>() && !in.none<head, A::bay_form>();
        if (!joined(t, "switch bay", on_half || on_head, in.has<switch_set, A::bay_form>())) return;
        auto const& form = on_half ? in.cell<switch_half, A::bay_form>() : in.cell<head, A::bay_form>();
        t.require("bay drive", same_choice(form, in.cell<switch_set, A::bay_form>()),
                  Say(A::bay_form, in.cell<switch_set, A::bay_form>().may),
                  Say(A::bay_form, form.may));
        auto const spacing = on_half ? in.measure<switch_half, A::bay_spacing>() : in.measure<head, A::bay_spacing>();
        // Half a millimetre of play in the fixing slots: common practice, no source.
        t.at_most("difference in the spacing of the fixing screws",
                  distance(spacing, in.measure<switch_set, A::bay_spacing>()), Length{{500'000}});
        auto const stroke = on_half ? in.measure<switch_half, A::bay_stroke>() : in.measure<head, A::bay_stroke>();
        t.at_least("stroke of the bay", stroke, in.measure<switch_set, A::bay_stroke>());
    }
};

struct Tube {
    using Scope = Reads<Slot{head, A::tube_diameter}, Slot{switch_half, A::tube_diameter}, Slot{head, A::tube_lift},
                        Slot{switch_half, A::tube_lift}, Slot{head, A::rest}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!joined(t, "magnet tube", in.has<head, A::tube_diameter>(), in.has<switch_half, A::tube_diameter>()))
            return;
        t.at_most("difference in tube diameter",
                  distance(in.measure<head, A::tube_diameter>(), in.measure<switch_half, A::tube_diameter>()),
                  Length{{500'000}});  // half a millimetre: common practice, no source
        t.at_least("lift of the magnet", in.measure<head, A::tube_lift>(), in.measure<switch_half, A::tube_lift>());
    }
};

struct Tappings {
    using Scope = Reads<Slot{column, A::tapping_spacing}, Slot{station, A::tapping_spacing}, Slot{station, A::piping}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<column, A::tapping_spacing>()) return t.not_applicable();
        Truth const close = in.is<station, A::piping>(bits<A::piping>("close"));
        if (close == Truth::fails) return t.not_applicable();
        auto const off = distance(in.measure<column, A::tapping_spacing>(), in.measure<station, A::tapping_spacing>());
        constexpr double slack = 1'587'500;  // 1/16 in that the unions take up: common practice, no source
        if (close == Truth::undecided && off.quanta.hi > slack)
            return t.require("close connection", Truth::undecided, "unknown piping", "piped, or equal spacing");
        t.at_most("difference in the spacing of the equalizing connections", off, Length{{slack}});
    }
};

/// The valves of a feed line screw into it, or bolt to it.
struct FeedThread {
    using Scope = Reads<Slot{part, A::connection_standard}, Slot{part, A::connection_size}, Slot{part, A::connection_gender},
                        Slot{line, A::connection_standard}, Slot{line, A::connection_size}, Slot{line, A::connection_gender}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<part, A::connection_standard>()) return t.not_applicable();
        auto const& own = in.cell<part, A::connection_standard>();
        auto const& line_ = in.cell<line, A::connection_standard>();
        t.require("connection standard", same_choice(own, line_), Say(A::connection_standard, own.may),
                  Say(A::connection_standard, line_.may));
        t.at_most("difference in connection size",
                  distance(in.measure<part, A::connection_size>(), in.measure<line, A::connection_size>()), Length{{0}});
        if (own.may == bits<A::connection_standard>("flanged")) return;   // flanges have no gender
        auto const& gender = in.cell<part, A::connection_gender>();
        auto const& other = in.cell<line, A::connection_gender>();
        Truth const same = same_choice(gender, other);
        t.require("connection gender", same == Truth::holds ? Truth::fails : same == Truth::fails ? Truth::holds : Truth::undecided,
                  Say(A::connection_gender, gender.may), Say(A::connection_gender, other.may, "not that of the line: "));
    }
};

struct Signal {
    using Scope = Reads<Slot{output, A::resistance}, Slot{converter, A::takes}, Slot{converter, A::takes_resistance},
                        Slot{converter, A::gives}, Slot{circuit, A::takes}, Slot{circuit, A::takes_resistance},
                        Slot{output, A::direction}, Slot{circuit, A::opens_with}, Slot{actuator, A::takes}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        // Where the actuator is a position of its own, feed.actuator compares with it.
        if (in.duty() != Duty::modulating_feed || in.has_place<actuator, A::takes>()) return t.not_applicable();
        // A transmitter gives 4 to 20 mA, whatever stands behind it; a slide-wire gives its resistance.
        bool const loop = in.all().output_kind == Owner::transmitter;
        auto const wire = loop ? bits<A::takes>("current_loop") : bits<A::takes>("slide_wire");
        bool const converted = in.has<converter, A::takes>();
        auto const& takes = converted ? in.cell<converter, A::takes>() : in.cell<circuit, A::takes>();
        Truth const slide = (takes.may & wire) == 0 ? Truth::fails : takes.may == wire ? Truth::holds : Truth::undecided;
        t.require("signal", slide, loop ? "current loop" : "slide wire", Say(A::takes, takes.may));
        if (converted)
            t.require("signal after the converter",
                      same_choice(in.cell<converter, A::gives>(), in.cell<circuit, A::takes>()),
                      Say(A::gives, in.cell<converter, A::gives>().may),
                      Say(A::takes, in.cell<circuit, A::takes>().may));
        opens_as_water_falls(in, t, in.cell<circuit, A::opens_with>());
        if (loop) return;
        auto const wanted =
            converted ? in.measure<converter, A::takes_resistance>() : in.measure<circuit, A::takes_resistance>();
        // A bridge balances on the ratio; ten per cent of the nominal resistance is common practice, no source.
        t.at_most("difference in slide-wire resistance", distance(in.measure<output, A::resistance>(), wanted),
                  Interval{0.1} * wanted);
    }
};

#define LEVELSWAP_RATED_SLOTS \
    Slot{circuit, A::supply}, Slot{contactor, A::coil_voltage}, Slot{relay, A::coil_voltage}, LEVELSWAP_LINE_COIL_SLOTS

template <class In>
bool has_coil(In const& in) {
    return in.template has<contactor, A::coil_voltage>() || in.template has<relay, A::coil_voltage>() || works_solenoid(in) ||
           works_actuator(in);
}

/// Kind of current and frequency, and a supply that pulls the coil in. The plate states one voltage: how far below
/// it a coil still serves is a figure of a pack, and without one nothing but the rated voltage is known to serve.
struct Supply {
    using Scope = Reads<LEVELSWAP_RATED_SLOTS, Slot{circuit, A::current_kind}, Slot{circuit, A::frequency},
                        Slot{contactor, A::coil_current_kind}, Slot{contactor, A::coil_frequency},
                        Slot{relay, A::coil_current_kind}, Slot{relay, A::coil_frequency},
                        Slot{solenoid_valve, A::coil_current_kind}, Slot{solenoid_valve, A::coil_frequency},
                        Slot{From::actuator, A::coil_current_kind}, Slot{From::actuator, A::coil_frequency}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!has_coil(in)) return t.not_applicable();
        if (in.has<contactor, A::coil_voltage>())
            coil(in, t, in.measure<contactor, A::coil_voltage>(), in.cell<contactor, A::coil_current_kind>(),
                 in.cell<contactor, A::coil_frequency>());
        if (in.has<relay, A::coil_voltage>())
            coil(in, t, in.measure<relay, A::coil_voltage>(), in.cell<relay, A::coil_current_kind>(),
                 in.cell<relay, A::coil_frequency>());
        if (works_solenoid(in))
            coil(in, t, in.measure<solenoid_valve, A::coil_voltage>(), in.cell<solenoid_valve, A::coil_current_kind>(),
                 in.cell<solenoid_valve, A::coil_frequency>());
        if (works_actuator(in))
            coil(in, t, in.measure<From::actuator, A::coil_voltage>(), in.cell<From::actuator, A::coil_current_kind>(),
                 in.cell<From::actuator, A::coil_frequency>());
    }
    template <class T>
    static void coil(Scope const& in, T& t, Voltage rated, Cell const& kind, Cell const& frequencies) {
        t.at_least("lowest supply voltage at the coil", in.measure<circuit, A::supply>(),
                   share_of(rated, -in.figure<Dimension::ratio>().quanta));
        auto const& current = in.cell<circuit, A::current_kind>();
        t.require("coil current", same_choice(kind, current), Say(A::coil_current_kind, kind.may),
                  Say(A::current_kind, current.may));
        if (current.may != bits<A::current_kind>("ac")) return;
        auto const wanted = in.cell<circuit, A::frequency>().may;
        Truth const suits = (frequencies.must & wanted) == wanted ? Truth::holds
                            : (frequencies.may & wanted) == 0     ? Truth::fails
                                                                  : Truth::undecided;
        t.require("coil frequency", suits, Say(A::coil_frequency, frequencies.may),
                  Say(A::frequency, wanted));
    }
};

/// A supply that does not burn the coil.
struct Overvoltage {
    using Scope = Reads<LEVELSWAP_RATED_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!has_coil(in)) return t.not_applicable();
        auto const over = in.figure<Dimension::ratio>().quanta;
        auto const supply = in.measure<circuit, A::supply>();
        if (in.has<contactor, A::coil_voltage>())
            t.at_most("highest supply voltage at the coil", supply, share_of(in.measure<contactor, A::coil_voltage>(), over));
        if (in.has<relay, A::coil_voltage>())
            t.at_most("highest supply voltage at the coil", supply, share_of(in.measure<relay, A::coil_voltage>(), over));
        if (works_solenoid(in))
            t.at_most("highest supply voltage at the coil", supply, share_of(in.measure<solenoid_valve, A::coil_voltage>(), over));
        if (works_actuator(in))
            t.at_most("highest supply voltage at the coil", supply, share_of(in.measure<From::actuator, A::coil_voltage>(), over));
    }
};

/// The head, its arm and its float come straight out of the joint: there must be room in front of it.
struct Withdrawal {
    using Scope = Reads<Slot{head, A::withdrawal}, Slot{station, A::clearance}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<head, A::withdrawal>()) return t.not_applicable();
        t.at_least("free space in front of the joint", in.measure<station, A::clearance>(),
                   in.measure<head, A::withdrawal>());
    }
};

struct Hand {
    using Scope = Reads<Slot{head, A::hand}, Slot{station, A::hand}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<head, A::hand>()) return t.not_applicable();
        auto const& mine = in.cell<head, A::hand>();
        auto const& wanted = in.cell<station, A::hand>();
        constexpr auto either = bits<A::hand>("either");
        Truth const suits = std::max({in.is<head, A::hand>(either), in.is<station, A::hand>(either),
                                      same_choice(mine, wanted)});
        bool const may_be_either = ((mine.may | wanted.may) & either) != 0;
        t.require("side of the conduit, facing the vessel", may_be_either ? std::max(suits, Truth::undecided) : suits,
                  Say(A::hand, mine.may), Say(A::hand, wanted.may));
    }
};

}  // namespace

RuleFunctions flange() { return functions_of<Flange>(); }
RuleFunctions tilt() { return functions_of<Tilt>(); }
RuleFunctions opening() { return functions_of<Opening>(); }
RuleFunctions stem() { return functions_of<Stem>(); }
RuleFunctions thread() { return functions_of<Thread>(); }
RuleFunctions connection() { return functions_of<Connection>(); }
RuleFunctions bay() { return functions_of<Bay>(); }
RuleFunctions tube() { return functions_of<Tube>(); }
RuleFunctions tappings() { return functions_of<Tappings>(); }
RuleFunctions feed_thread() { return functions_of<FeedThread>(); }
RuleFunctions signal() { return functions_of<Signal>(); }
RuleFunctions supply() { return functions_of<Supply>(); }
RuleFunctions overvoltage() { return functions_of<Overvoltage>(); }
RuleFunctions withdrawal() { return functions_of<Withdrawal>(); }
RuleFunctions hand() { return functions_of<Hand>(); }

}  // namespace levelswap::families::interfaces
