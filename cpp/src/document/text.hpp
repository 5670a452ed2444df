#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace levelswap::document {

/// The number of characters (code points) of UTF-8 text.
std::size_t characters(std::string_view text);

/// Text of a file, fit to be shown in a message: invalid bytes and control
/// characters replaced, long text cut.
std::string shown_text(std::string_view text);

/// `text` with invalid bytes and control characters replaced by `?`, cut after `most` characters.
std::string printable(std::string_view text, std::size_t most);

/// The offset of the first byte that is not valid UTF-8 (RFC 3629); nothing when all is valid.
std::optional<std::size_t> first_invalid_byte(std::string_view text);

/// The lines of the text, without their ends (\n or \r\n).
std::vector<std::string> split_lines(std::string_view text);

}  // namespace levelswap::document
