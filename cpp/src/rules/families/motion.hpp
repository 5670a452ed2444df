#pragma once

// What travel, buoyancy and levels share: how a float head turns the arm, and how an output sits on the arm.

#include "levelswap/physics/statics.hpp"
#include "levelswap/physics/swing.hpp"
#include "levelswap/physics/water.hpp"
#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

inline constexpr double gravity = 9.80665;  // m/s², standard acceleration (CGPM 1901)

/// The slots that place a float in a chamber, in a fixed order.
#define LEVELSWAP_SWING_SLOTS                                                                                      \
    Slot{From::head, Attribute::pivot_along}, Slot{From::head, Attribute::pivot_across},                           \
        Slot{From::head, Attribute::arm}, Slot{From::head, Attribute::arm_width}, Slot{From::head, Attribute::rest}, \
        Slot{From::head, Attribute::stop_low}, Slot{From::head, Attribute::stop_high},                             \
        Slot{From::column, Attribute::tilt}, Slot{From::column, Attribute::ceiling},                               \
        Slot{From::column, Attribute::floor}, Slot{From::column, Attribute::bore},                                 \
        Slot{From::column, Attribute::axis}, Slot{From::column, Attribute::throat_at},                             \
        Slot{From::column, Attribute::throat_half}, Slot{From::float_, Attribute::form},                           \
        Slot{From::float_, Attribute::diameter}, Slot{From::float_, Attribute::height}

template <class In>
bool swings(In const& in) {
    return in.template has<From::head, Attribute::arm>() && in.template has<From::column, Attribute::tilt>() &&
           in.template has<From::float_, Attribute::diameter>();
}

template <class In>
Truth form_is_known(In const& in) {
    auto const may = in.template cell<From::float_, Attribute::form>().may;
    return (may & (may - 1)) == 0 ? Truth::holds : Truth::undecided;
}

template <class In>
physics::FloatForm form_of(In const& in) {
    return in.template cell<From::float_, Attribute::form>().may == bits<Attribute::form>("cylinder")
               ? physics::FloatForm::cylinder
               : physics::FloatForm::sphere;
}

template <class In>
physics::SwingFacts swing_facts(In const& in) {
    using A = Attribute;
    physics::SwingFacts f;
    f.along = in.template measure<From::head, A::pivot_along>().si();
    f.across = in.template measure<From::head, A::pivot_across>().si();
    f.arm = in.template measure<From::head, A::arm>().si();
    f.arm_width = in.template measure<From::head, A::arm_width>().si();
    f.tilt = in.template measure<From::column, A::tilt>().si();
    f.form = form_of(in);
    f.diameter = in.template measure<From::float_, A::diameter>().si();
    f.height = in.template measure<From::float_, A::height>().si();
    f.ceiling = in.template measure<From::column, A::ceiling>().si();
    f.floor = in.template measure<From::column, A::floor>().si();
    f.bore = in.template measure<From::column, A::bore>().si();
    f.axis = in.template measure<From::column, A::axis>().si();
    f.throat_at = in.template measure<From::column, A::throat_at>().si();
    f.throat_half = in.template measure<From::column, A::throat_half>().si();
    f.stop_low = in.template measure<From::head, A::stop_low>().si();
    f.stop_high = in.template measure<From::head, A::stop_high>().si();
    f.rest = in.template measure<From::head, A::rest>().si();
    return f;
}

/// The arm angle at a bay travel: θ = zero + travel ÷ gain.
template <class In, Attribute Travel>
Angle arm_angle(In const& in) {
    using A = Attribute;
    auto const gain = in.template has<From::switch_half, A::bay_gain>()
                          ? in.template measure<From::switch_half, A::bay_gain>()
                          : in.template measure<From::head, A::bay_gain>();
    return in.template measure<From::head, A::bay_zero>() +
           Angle{in.template measure<From::output, Travel>().quanta / gain.si()};
}

}  // namespace levelswap::families
