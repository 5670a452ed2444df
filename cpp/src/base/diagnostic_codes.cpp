#include "levelswap/base/diagnostic.hpp"

namespace levelswap {

// The one table of codes: D what a file is, V how a value is written, C what a
// catalogue or pack says, S what a site or swap says. A code is never reused;
// a retired one keeps its row.
std::vector<DiagnosticCode> const& diagnostic_codes() {
    static std::vector<DiagnosticCode> const codes{
        {"LS-D001", "the file cannot be read", "Check the path and that you may read the file."},
        {"LS-D002", "the file is too large", "Split it into several files."},
        {"LS-D003", "the file is not UTF-8 text", "Save it again with the encoding UTF-8."},
        {"LS-D004", "a control character stands in the text", "Delete the character; retype the line if need be."},
        {"LS-D005", "a tab stands in the text", "Use spaces: a tab has no fixed width."},
        {"LS-D006", "the text is not valid YAML", "Correct the line; put text that holds \": \" or \" #\" in quotes."},
        {"LS-D007", "a key is given twice", "Keep one of the two."},
        {"LS-D008", "a merge key is used", "Write the entries out, or refer to the whole value with an alias."},
        {"LS-D009", "a tag is used", "Delete the tag: the key alone says what a value is."},
        {"LS-D010", "the file holds more than one document", "Put each document into a file of its own."},
        {"LS-D011", "the nesting is too deep", "Flatten the entries; no levelswap file needs so many levels."},
        {"LS-D012", "the file holds too many entries", "Use fewer aliases of large values, or split the file."},
        {"LS-D013", "the file is empty", "Write its content, or take the file off the list."},
        {"LS-D014", "a key is not a plain word", "Write the key as text, without brackets, braces or aliases."},
        {"LS-D015", "an alias refers to the value that holds it", "Write the value out."},
        {"LS-D016", "an anchor is given twice", "Give the second value a name of its own."},
        {"LS-D017", "too many problems, reading stopped", "Correct those listed and read the file again."},
        {"LS-D018", "an alias has no anchor", "Set the anchor above its first use."},

        {"LS-V001", "the value is not a number", "Write a number and its unit."},
        {"LS-V002", "the number has no unit", "State the unit: no unit is ever assumed."},
        {"LS-V003", "the unit is not known", "Use one of the accepted units."},
        {"LS-V004", "the unit measures something else", "Use a unit of the quantity asked for."},
        {"LS-V005", "the pressure does not say gauge or absolute", "Add (g) or (a) to the unit."},
        {"LS-V006", "the number is written in a form that can be misread", "Write plain decimal digits with a point."},
        {"LS-V007", "the number is too large or has too many digits", "Use a larger unit or fewer digits."},
        {"LS-V008", "the range runs backwards", "Write the smaller end first."},
        {"LS-V009", "the tolerance is negative", "Write the tolerance without a sign."},
        {"LS-V010", "a whole number is expected", "Write a whole number without a fraction."},
        {"LS-V011", "the fraction cannot be read", "Write it like 2 1/2, with a divisor above zero."},
        {"LS-V012", "the value is not complete", "Write a number, a range, or a number and a tolerance."},
        {"LS-V013", "the value is missing", "Write the value, or \"unknown\"."},
        {"LS-V014", "the value takes no unit", "Write the number alone."},

        {"LS-C001", "the key is not known here", "Correct the key, or delete the entry."},
        {"LS-C002", "a key is missing", "Add the key; write \"unknown\" where the fact is not known."},
        {"LS-C003", "the value has the wrong shape", "Write a word, a list or a map, as the message says."},
        {"LS-C004", "the id is given twice", "Rename or delete one of the two."},
        {"LS-C005", "the choice is not known", "Use one of the choices listed."},
        {"LS-C006", "the value is outside the physical domain", "Check the figure and its unit."},
        {"LS-C007", "the kind is not known", "Use one of the kinds listed."},
        {"LS-C008", "the file does not start with its header", "Make the header, such as \"levelswap: parts/1\", the first entry."},
        {"LS-C009", "the id is not plain words", "Use lower-case words with single spaces or underscores."},
        {"LS-C010", "the curve is not a curve", "Give at least one point, temperatures rising."},
        {"LS-C011", "the figure is not known in a pack", "Use one of the figures listed."},
        {"LS-C012", "there are too many entries", "Split the list."},
        {"LS-C013", "the part referred to is of another kind", "Refer to a part of the kind asked for."},
        {"LS-C014", "the catalogue holds no parts", "Put part files named *.yaml into its folder parts."},
        {"LS-C015", "the file would be passed over because of its name", "Rename it to *.yaml, or take it out of the folder."},
        {"LS-C016", "two facts of one owner contradict each other", "Check both figures; the message names the order they must have."},
        {"LS-C017", "the figure of a pack is weaker than physics", "Ask for the neutral figure or more, or delete the row."},
        {"LS-C018", "the size is no nominal size", "Write the nominal size of the thread or flange, not a measured diameter."},

        {"LS-S001", "the part is not in the catalogue", "Correct the id, or add the part to the catalogue."},
        {"LS-S002", "the position does not accept this kind of part", "Put the part where its kind belongs."},
        {"LS-S003", "the function is not known", "Use one of the functions listed."},
        {"LS-S004", "the circuit is not known", "Use one of the circuits of the site."},
        {"LS-S005", "the output is not known", "Use one of the outputs of the part in that position."},
        {"LS-S006", "the position is not known", "Use one of the positions of the site."},
        {"LS-S007", "the pack is not known", "Use one of the packs that were read."},
        {"LS-S008", "two sources of one fact contradict each other", "Measure again, or correct the wrong one."},
        {"LS-S009", "the output is used twice", "Give each function an output of its own."},
        {"LS-S010", "the station has a glass but not its datum", "Write \"glass_on: column\" or \"glass_on: vessel\"."},
        {"LS-S011", "the feed line is not known", "Use one of the feed lines of the site."},
    };
    return codes;
}

}  // namespace levelswap
