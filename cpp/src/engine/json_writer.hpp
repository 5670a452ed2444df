#pragma once

#include <string>
#include <string_view>
#include <utility>

namespace levelswap {

/// Writes one JSON text. Members come out in the order they are added: same input, same bytes.
class JsonWriter {
public:
    void text(std::string_view value);
    void number(double value);                 ///< to a micrometre of metres: six decimals at most
    void raw(std::string_view token) { out_ += token; }
    void name(std::string_view member);
    template <class Body>
    void object(Body body) {
        enclosed('{', '}', body);
    }
    template <class Items, class Each>
    void list(Items const& items, Each each) {
        enclosed('[', ']', [&] {
            for (auto const& item : items) {
                comma();
                each(item);
            }
        });
    }
    [[nodiscard]] std::string take() { return std::move(out_); }

private:
    template <class Body>
    void enclosed(char open, char close, Body body) {
        out_ += open;
        bool const outer = std::exchange(first_, true);
        body();
        first_ = outer;
        out_ += close;
    }
    void comma() {
        if (!std::exchange(first_, false)) out_ += ',';
    }
    std::string out_;
    bool first_ = true;
};

}  // namespace levelswap
