#include "sheet_rows.hpp"

namespace levelswap {

namespace {

/// One output's circuit in words: each part of it that is there, and "not known" where the file does not say.
class CircuitWords {
public:
    CircuitWords(SheetCase const& s, Device const& d)
        : s_(s), d_(d), function_(s.site().functions[static_cast<std::size_t>(d.function)]),
          circuit_(s.site().circuits[static_cast<std::size_t>(function_.circuit)]) {}

    SheetCircuit row() const {
        std::string const duty(words_of(d_.duty)), output = output_label(s_.c, d_.output, s_.c.after);
        if (mechanical()) return {duty, output, contact(), {}, circuit_.name, "no electricity: water only", {}, {}, {}};
        return {duty, output, contact(), terminals(), circuit_.name, supply(), load(), rating(), protection()};
    }

private:
    [[nodiscard]] int at(Role role) const { return circuit_.position(role); }
    Fact const* of_circuit(Attribute a) const { return circuit_.facts.find(a); }
    static bool absent(Fact const* f) { return !f || f->nature == Fact::Nature::none || (f->lo == 0 && f->hi == 0); }
    static bool unknown(Fact const* f) { return f->nature == Fact::Nature::unknown; }

    std::string amount(Fact const* f, Attribute a) const {
        if (!f || unknown(f)) return "not known";
        return s_.words.quantity({f->lo, f->hi}, row_of(a).dimension);
    }
    std::string word(Fact const* f, Attribute a) const {
        return !f || unknown(f) ? "not known" : words_of_bits(a, f->may);
    }
    std::string held(int position) const {
        return position < 0 ? "nothing" : part_name(s_.c.judge.catalog(), s_.c.after[static_cast<std::size_t>(position)]);
    }
    bool there(int position) const { return position >= 0 && s_.c.after[static_cast<std::size_t>(position)] != nothing; }

    std::string terminals() const {
        if (d_.acts != Device::Acts::slides) return "______ and ______, read off the part";
        if (transmitter()) return "+ ______ and - ______, read off the part";
        return "ends ______ and ______, slider ______, read off the part";
    }
    bool transmitter() const { return s_.kind(d_) == Owner::transmitter; }

    std::string contact() const {
        if (transmitter()) return "none: a signal in a two-wire loop, " + s_.signal(d_);
        if (d_.acts == Device::Acts::slides) return "slide-wire, " + amount(s_.fact(d_, From::output, Attribute::resistance), Attribute::resistance);
        if (mechanical()) return "none: its own float moves the valve";
        return d_.acts == Device::Acts::opens ? "opens as the water falls" : "closes as the water falls";
    }

    std::string supply() const {
        std::string text = amount(of_circuit(Attribute::supply), Attribute::supply) + " " +
                           current();
        text += "; supply " + word(of_circuit(Attribute::source), Attribute::source);
        if (d_.has_contact()) text += "; the contact breaks the " + word(of_circuit(Attribute::breaks), Attribute::breaks) + " conductor";
        if (there(at(Role::transformer))) text += "; through " + held(at(Role::transformer));
        return text;
    }

    /// Symbols as they stand on a plate, where the file's words are plain.
    std::string current() const {
        auto const* kind = of_circuit(Attribute::current_kind);
        auto const* frequency = of_circuit(Attribute::frequency);
        std::string text = kind->may == bits<Attribute::current_kind>("ac")   ? "AC"
                           : kind->may == bits<Attribute::current_kind>("dc") ? "DC"
                                                                              : "AC or DC, not known which";
        if (frequency->may == bits<Attribute::frequency>("50_hz")) text += ", 50 Hz";
        if (frequency->may == bits<Attribute::frequency>("60_hz")) text += ", 60 Hz";
        return text;
    }

    [[nodiscard]] bool mechanical() const { return d_.acts == Device::Acts::feeds; }

    static void add(std::string& text, std::string const& more) { text += (text.empty() ? "" : "; ") + more; }

    std::string coil(From from, int position) const {
        return "coil of " + held(position) + " (" + amount(s_.fact(d_, from, Attribute::coil_inrush), Attribute::coil_inrush) +
               " inrush, " + amount(s_.fact(d_, from, Attribute::coil_holding), Attribute::coil_holding) + " holding)";
    }

    std::string motor() const {
        return amount(of_circuit(Attribute::load_motor_power), Attribute::load_motor_power) + ", " +
               amount(of_circuit(Attribute::load_motor_voltage), Attribute::load_motor_voltage) + ", number of phases " +
               amount(of_circuit(Attribute::load_motor_phases), Attribute::load_motor_phases) + ", " +
               amount(of_circuit(Attribute::load_motor_running), Attribute::load_motor_running) + " running, " +
               amount(of_circuit(Attribute::load_motor_locked), Attribute::load_motor_locked) + " locked rotor";
    }

    std::string load() const {
        std::string text;
        bool const relay = there(at(Role::relay)), contactor = there(at(Role::contactor));
        if (relay) add(text, coil(From::relay, at(Role::relay)));
        if (contactor) add(text, coil(From::contactor, at(Role::contactor)) + (relay ? ", on the relay's contact" : ""));
        if (!absent(of_circuit(Attribute::coil_inrush)))
            add(text, "coils of the circuit (" + amount(of_circuit(Attribute::coil_inrush), Attribute::coil_inrush) + " inrush, " +
                          amount(of_circuit(Attribute::coil_holding), Attribute::coil_holding) + " holding)");
        if (!absent(of_circuit(Attribute::load_motor_power))) add(text, (contactor ? "the contactor switches a motor, " : "motor, ") + motor());
        if (!absent(of_circuit(Attribute::load_signal)))
            add(text, "logic input, " + amount(of_circuit(Attribute::load_signal), Attribute::load_signal));
        if (circuit_.line >= 0)
            for (int p : s_.site().lines[static_cast<std::size_t>(circuit_.line)].positions)
                if (there(p)) add(text, "in its feed line: " + held(p));
        if (d_.acts == Device::Acts::slides) {
            if (there(at(Role::converter))) add(text, "through " + held(at(Role::converter)));
            add(text, "actuator that takes " + word(of_circuit(Attribute::takes), Attribute::takes));
        }
        return text.empty() ? "none" : text;
    }

    std::string rating() const {
        if (d_.acts == Device::Acts::slides) return "no contact: signal only";
        std::string text;
        auto const* code = s_.fact(d_, From::output, Attribute::pilot_duty);
        if (code && code->nature != Fact::Nature::none) add(text, "pilot duty " + word(code, Attribute::pilot_duty));
        auto const* running = s_.fact(d_, From::output, Attribute::motor_running);
        if (!absent(running))
            add(text, "motor " + amount(running, Attribute::motor_running) + " running, " +
                          amount(s_.fact(d_, From::output, Attribute::motor_locked), Attribute::motor_locked) + " locked rotor");
        add(text, "at most " + amount(s_.fact(d_, From::output, Attribute::most_voltage), Attribute::most_voltage));
        add(text, "number of poles " + amount(s_.fact(d_, From::output, Attribute::poles), Attribute::poles));
        return text;
    }

    std::string protection() const {
        std::string text;
        if (there(at(Role::contactor))) {
            auto const* f = s_.fact(d_, From::contactor, Attribute::overload);
            auto const has = word(f, Attribute::overload);
            add(text, has == "yes" ? "motor overload in " + held(at(Role::contactor))
                                   : has == "no" ? "no motor overload in " + held(at(Role::contactor)) : "motor overload not known");
        }
        auto const* fuse = of_circuit(Attribute::fuse);
        add(text, !fuse || unknown(fuse) ? "fuse or breaker: see the board"
                  : fuse->nature == Fact::Nature::none ? "no fuse or breaker"
                                                       : "fuse or breaker " + amount(fuse, Attribute::fuse));
        return text;
    }

    SheetCase const& s_;
    Device const& d_;
    Function const& function_;
    Circuit const& circuit_;
};

}  // namespace

std::vector<SheetCircuit> sheet_circuits(SheetCase const& s) {
    std::vector<SheetCircuit> out;
    for (auto const& d : s.model.devices)
        if (d.wired() && s.site().functions[static_cast<std::size_t>(d.function)].circuit >= 0) out.push_back(CircuitWords(s, d).row());
    return out;
}

}  // namespace levelswap
