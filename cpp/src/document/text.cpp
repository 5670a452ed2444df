#include "text.hpp"

#include <algorithm>
#include <cstdint>

namespace levelswap::document {

namespace {

/// The length of the valid character at the start of `text`; 0 when it is invalid.
/// Overlong forms, surrogates and values above 10FFFF are invalid (RFC 3629, section 3).
std::size_t character_length(std::string_view text) {
    auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<std::uint8_t>(text[i]) : std::uint8_t{0}; };
    auto follows = [&](std::size_t i) { return (byte(i) & 0xC0) == 0x80; };
    std::uint8_t const b = byte(0);
    if (b < 0x80) return 1;
    if (b < 0xC2 || b > 0xF4 || !follows(1)) return 0;
    if (b < 0xE0) return 2;
    if ((b == 0xE0 && byte(1) < 0xA0) || (b == 0xED && byte(1) > 0x9F) || !follows(2)) return 0;
    if (b < 0xF0) return 3;
    if ((b == 0xF0 && byte(1) < 0x90) || (b == 0xF4 && byte(1) > 0x8F) || !follows(3)) return 0;
    return 4;
}

bool is_control(std::string_view character) {
    auto const b = static_cast<std::uint8_t>(character[0]);
    if (character.size() == 1) return b < 0x20 || b == 0x7F;
    return b == 0xC2 && static_cast<std::uint8_t>(character[1]) < 0xA0;
}

}  // namespace

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<std::uint8_t>(c) & 0xC0) != 0x80; }));
}

std::string printable(std::string_view text, std::size_t most) {
    std::string out;
    std::size_t written = 0;
    while (!text.empty()) {
        if (written++ == most) return out + "...";
        std::size_t const n = character_length(text);
        std::string_view const character = text.substr(0, std::max<std::size_t>(n, 1));
        if (n == 0 || is_control(character)) out += '?';
        else out += character;
        text.remove_prefix(character.size());
    }
    return out;
}

std::string shown_text(std::string_view text) { return printable(text, 60); }

std::optional<std::size_t> first_invalid_byte(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        std::size_t const n = character_length(text.substr(at, 4));
        if (n == 0) return at;
        at += n;
    }
    return std::nullopt;
}

std::vector<std::string> split_lines(std::string_view text) {
    std::vector<std::string> lines;
    while (!text.empty()) {
        std::size_t const end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        if (line.ends_with('\r')) line.remove_suffix(1);
        lines.emplace_back(line);
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

}  // namespace levelswap::document
