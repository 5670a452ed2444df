#pragma once

#include "levelswap/rules/rule.hpp"

#include <cstdint>
#include <vector>

namespace levelswap {

/// Truths by a 64-bit key: open addressing, a power of two long, at most half full.
class FlatTable {
public:
    /// The truth under the key, or null.
    [[nodiscard]] Truth const* find(std::uint64_t key) const {
        if (slots_.empty()) return nullptr;
        for (std::size_t i = place(key);; i = (i + 1) & (slots_.size() - 1)) {
            if (!slots_[i].used) return nullptr;
            if (slots_[i].key == key) return &slots_[i].truth;
        }
    }

    void add(std::uint64_t key, Truth truth) {
        if (2 * (used_ + 1) > slots_.size()) grow();
        put({key, truth, true});
        ++used_;
    }

private:
    struct Slot {
        std::uint64_t key = 0;
        Truth truth = Truth::holds;
        bool used = false;
    };

    [[nodiscard]] std::size_t place(std::uint64_t key) const {
        std::uint64_t const h = key * 0x9e3779b97f4a7c15ull;   // Fibonacci hashing (Knuth, vol. 3, 6.4)
        return static_cast<std::size_t>(h ^ (h >> 29)) & (slots_.size() - 1);
    }
    void put(Slot const& slot) {
        std::size_t i = place(slot.key);
        while (slots_[i].used) i = (i + 1) & (slots_.size() - 1);
        slots_[i] = slot;
    }
    void grow() {
        std::vector<Slot> old(slots_.empty() ? 16 : 2 * slots_.size());
        old.swap(slots_);
        for (auto const& slot : old)
            if (slot.used) put(slot);
    }

    std::vector<Slot> slots_;
    std::size_t used_ = 0;
};

}  // namespace levelswap
