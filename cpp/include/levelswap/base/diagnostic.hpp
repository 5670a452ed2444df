#pragma once

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace levelswap {

/// A place in a file. Lines and columns count from 1; line 0 means "the file as a whole".
struct SourceSpan {
    std::string file;
    int line = 0;
    int column = 0;
    int length = 1;  ///< characters to underline
    friend bool operator==(SourceSpan const&, SourceSpan const&) = default;
};

enum class Severity : std::uint8_t { error, warning };

/// One problem of an input file, as a value. Text is only one way to print it.
struct Diagnostic {
    std::string code;      ///< "LS-D003", from the one table in base/diagnostic_codes
    Severity severity = Severity::error;
    SourceSpan where;
    SourceSpan also;       ///< second place when two entries clash; file empty when there is none
    std::string message;   ///< what was found, with the offending value
    std::string expected;  ///< what would be right
    std::string hint;      ///< what to do; the nearest valid name for a mistyped one
    std::string excerpt;   ///< the line of the file that is underlined
    std::string also_excerpt;
    int context_line = 0;  ///< the nearest line above that is less indented; 0 when there is none
    std::string context;
    friend bool operator==(Diagnostic const&, Diagnostic const&) = default;
};

/// Where, what we found, what we expected, what to do: with the line and a caret.
std::string render(Diagnostic const& diagnostic);
std::string render(std::vector<Diagnostic> const& diagnostics);

/// One row of the table of diagnostic codes. Codes are never reused.
struct DiagnosticCode {
    std::string_view code;
    std::string_view title;
    std::string_view cure;
};
std::vector<DiagnosticCode> const& diagnostic_codes();

/// The candidate nearest to `word` by edit distance, or empty when none is near
/// (distance above 1 + a third of the length). Ties go to the alphabetically first.
std::string nearest(std::string_view word, std::vector<std::string> const& candidates);

/// Base of every error that levelswap raises.
class Error : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// A catalogue, pack, site or swap file that cannot be used: carries every problem found.
class DataError : public Error {
public:
    explicit DataError(std::vector<Diagnostic> diagnostics);
    [[nodiscard]] std::vector<Diagnostic> const& diagnostics() const { return diagnostics_; }

private:
    std::vector<Diagnostic> diagnostics_;
};

/// A wrong call: an unknown part id, a position that the site does not have.
class UsageError : public Error {
public:
    using Error::Error;
};

}  // namespace levelswap
