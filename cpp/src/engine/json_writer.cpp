#include "json_writer.hpp"

#include <fmt/format.h>

#include <cmath>

namespace levelswap {

/// RFC 8259 section 7: the quote, the backslash and what is below U+0020 must be escaped.
void JsonWriter::text(std::string_view value) {
    out_ += '"';
    for (char const c : value) {
        if (c == '"' || c == '\\') out_ += {'\\', c};
        else if (c == '\n') out_ += "\\n";
        else if (c == '\t') out_ += "\\t";
        else if (c == '\r') out_ += "\\r";
        else if (static_cast<unsigned char>(c) < 0x20) out_ += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
        else out_ += c;
    }
    out_ += '"';
}

void JsonWriter::number(double value) {
    double const rounded = std::round(value * 1e6) / 1e6;
    out_ += fmt::format("{}", rounded == 0 ? 0.0 : rounded);
}

void JsonWriter::name(std::string_view member) {
    comma();
    text(member);
    out_ += ':';
}

}  // namespace levelswap
