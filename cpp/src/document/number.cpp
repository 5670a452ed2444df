#include "number.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace levelswap::document {

namespace {

constexpr std::size_t most_digits = 17;          // 10^17 times any scale of the unit table fits in 127 bits
constexpr std::size_t most_fraction_digits = 5;  // of each of the three numbers in 2 1/2

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

char at(std::string_view text, std::size_t i) { return i < text.size() ? text[i] : '\0'; }

std::size_t digits_at(std::string_view text, std::size_t from) {
    std::size_t n = 0;
    while (is_digit(at(text, from + n))) ++n;
    return n;
}

Wide whole_number(std::string_view digits) {
    Wide n = 0;
    for (char const c : digits) n = n * 10 + (c - '0');
    return n;
}

/// Reads one number from the text in front of it; every refusal names its reason.
class NumberReader {
public:
    NumberReader(std::string_view text, NumberProblem& problem) : text_(text), problem_(problem) {}

    std::optional<Rational> read() {
        if (at(text_, 0) == '-' || at(text_, 0) == '+') sign_ = at(text_, next_++) == '-' ? -1 : 1;
        start_ = next_;
        if (!is_digit(at(text_, next_)) && !(at(text_, next_) == '.' && is_digit(at(text_, next_ + 1)))) return no_number();
        std::size_t const whole = digits_at(text_, next_);
        if (misread(whole)) return std::nullopt;
        if (auto const slash = next_ + whole; at(text_, slash) == '/' && whole > 0) return fraction(0, next_, whole);
        if (std::size_t const part = mixed_part(whole); part > 0) return fraction(whole, part, digits_at(text_, part));
        return decimal(whole);
    }

    [[nodiscard]] std::size_t length() const { return next_; }

private:
    std::string_view text_;
    NumberProblem& problem_;
    std::size_t start_ = 0;
    std::size_t next_ = 0;
    int sign_ = 1;

    std::nullopt_t fail(std::string_view code, std::size_t from, std::size_t length, std::string message, std::string hint) {
        problem_ = {code, text_.substr(std::min(from, text_.size()), length), std::move(message), std::move(hint)};
        return std::nullopt;
    }

    std::nullopt_t no_number() {
        std::size_t const end = std::min(text_.find(' '), text_.size());
        std::string hint = "write the number first, then its unit";
        if (text_.starts_with("\xE2\x88\x92")) hint = "use the hyphen - as the minus sign";
        if (text_.starts_with('<') || text_.starts_with('>')) hint = "write \"at most\" or \"at least\"";
        return fail("LS-V001", 0, std::max<std::size_t>(end, 1), fmt::format("\"{}\" is not a number", text_.substr(0, end)), hint);
    }

    /// Forms that other readers take for a different number.
    bool misread(std::size_t whole) {
        std::size_t token = next_;
        while (is_digit(at(text_, token)) || is_letter(at(text_, token)) || at(text_, token) == '_' || at(text_, token) == ',' ||
               (at(text_, token) == '.' && at(text_, token + 1) != '.' && at(text_, token - 1) != '.')) {
            ++token;
        }
        std::string_view const word = text_.substr(next_, token - next_);
        auto refuse = [&](std::string_view what, std::string_view hint) {
            fail("LS-V006", next_, word.size(), fmt::format("\"{}\" {}", word, what), std::string(hint));
            return true;
        };
        char const first = at(text_, next_);
        char const second = at(text_, next_ + 1);
        if (first == '0' && (second == 'x' || second == 'X' || ((second == 'b' || second == 'o') && is_digit(at(text_, next_ + 2))))) {
            return refuse("is not a decimal number", "write it in decimal digits");
        }
        if (first == '0' && is_digit(second)) return refuse("starts with a zero and could be read as octal", "leave out the leading zero");
        std::size_t end = next_ + whole;
        if (at(text_, end) == '_') return refuse("holds an underscore", "write the digits without separators");
        if (at(text_, end) == ',') return refuse("holds a comma", "write a decimal point, and no thousands separator");
        if (at(text_, end) == '.' && at(text_, end + 1) != '.') {
            std::size_t const decimals = digits_at(text_, end + 1);
            if (decimals == 0) return refuse("ends in a point", "write a digit behind the point, or leave it out");
            end += 1 + decimals;
        }
        if (char const c = at(text_, end); c == '_' || c == ',' || (c == '.' && is_digit(at(text_, end + 1)))) {
            return refuse("holds more than one separator", "write digits and one decimal point");
        }
        if (char const c = at(text_, end); c == 'e' || c == 'E') {
            char const sign = at(text_, end + 1);
            if (is_digit(sign) || ((sign == '-' || sign == '+') && is_digit(at(text_, end + 2)))) {
                return refuse("has an exponent", "write all the digits, or use another unit");
            }
        }
        return false;
    }

    /// Where `1/2` starts in `2 1/2` or `2-1/2`; 0 when there is none.
    [[nodiscard]] std::size_t mixed_part(std::size_t whole) const {
        std::size_t part = next_ + whole;
        if (at(text_, part) != ' ' && at(text_, part) != '-') return 0;
        ++part;
        std::size_t const digits = digits_at(text_, part);
        if (digits == 0 || at(text_, part + digits) != '/') return 0;
        // In `6 1/h` the second part is a unit.
        return is_letter(at(text_, part + digits + 1)) ? 0 : part;
    }

    std::optional<Rational> fraction(std::size_t whole, std::size_t part, std::size_t digits) {
        std::size_t const under = part + digits + 1;
        std::size_t const under_digits = digits_at(text_, under);
        std::size_t const end = under + under_digits;
        std::string_view const shown = text_.substr(start_, end - start_);
        if (under_digits == 0 || at(text_, end) == '.' || at(text_, end) == '/') {
            return fail("LS-V011", start_, shown.size(), fmt::format("\"{}\" is not a fraction", shown), "write it like 1/2 or 2 1/2");
        }
        if (std::max({whole, digits, under_digits}) > most_fraction_digits) {
            return fail("LS-V007", start_, shown.size(), fmt::format("\"{}\" has too many digits", shown), "use up to five digits in each number");
        }
        Wide const divisor = whole_number(text_.substr(under, under_digits));
        Wide const above = whole_number(text_.substr(part, digits));
        if (divisor == 0) return fail("LS-V011", under, under_digits, fmt::format("\"{}\" divides by zero", shown), "write a divisor above zero");
        if (whole > 0 && above >= divisor) {
            return fail("LS-V011", part, end - part, fmt::format("\"{}\" adds a fraction of one or more", shown), "check the digits: the fraction must be below one");
        }
        Wide const units = whole_number(text_.substr(start_, whole));
        next_ = end;
        return Rational{sign_ * (units * divisor + above), divisor};
    }

    std::optional<Rational> decimal(std::size_t whole) {
        std::size_t const point = next_ + whole;
        std::size_t const decimals = at(text_, point) == '.' && at(text_, point + 1) != '.' ? digits_at(text_, point + 1) : 0;
        std::size_t const end = decimals > 0 ? point + 1 + decimals : point;
        std::string_view const shown = text_.substr(start_, end - start_);
        if (whole + decimals > most_digits) {
            return fail("LS-V007", start_, shown.size(), fmt::format("\"{:.40}\" has too many digits", shown), "use up to 17 digits");
        }
        Rational number{whole_number(text_.substr(start_, whole)), 1};
        for (char const c : text_.substr(decimals > 0 ? point + 1 : end, decimals)) {
            number.numerator = number.numerator * 10 + (c - '0');
            number.divisor *= 10;
        }
        if (at(text_, end) == '/') return fail("LS-V011", start_, shown.size() + 1, fmt::format("\"{}/\" is not a fraction", shown), "write whole numbers in a fraction, like 1/2");
        number.numerator *= sign_;
        next_ = end;
        return number;
    }
};

}  // namespace

std::optional<Rational> read_number(std::string_view& rest, NumberProblem& problem) {
    NumberReader reader(rest, problem);
    auto const number = reader.read();
    if (number) rest.remove_prefix(reader.length());
    return number;
}

bool is_whole(Rational number) { return number.numerator % number.divisor == 0; }

ExactQuanta to_quanta(Rational number, ExactUnit const& unit) {
    Wide const above = number.numerator * unit.scale + number.divisor * unit.offset;
    Wide const below = number.divisor * unit.divisor;
    Wide whole = above / below;
    if (above < 0 && whole * below != above) --whole;  // towards minus infinity, so that the rest is not negative
    return {whole, static_cast<long double>(above - whole * below) / static_cast<long double>(below)};
}

ExactQuanta operator+(ExactQuanta x, ExactQuanta y) {
    long double const rest = x.rest + y.rest;
    return rest >= 1 ? ExactQuanta{x.whole + y.whole + 1, rest - 1} : ExactQuanta{x.whole + y.whole, rest};
}

ExactQuanta operator-(ExactQuanta x) {
    return x.rest == 0 ? ExactQuanta{-x.whole, 0} : ExactQuanta{-x.whole - 1, 1 - x.rest};
}

std::optional<std::int64_t> nearest_quantum(ExactQuanta quanta) {
    constexpr Wide limit = Wide{1} << 53;
    bool const up = quanta.whole >= 0 ? quanta.rest >= 0.5L : quanta.rest > 0.5L;
    Wide const rounded = quanta.whole + (up ? 1 : 0);
    if (rounded > limit || rounded < -limit) return std::nullopt;
    return static_cast<std::int64_t>(rounded);
}

}  // namespace levelswap::document
