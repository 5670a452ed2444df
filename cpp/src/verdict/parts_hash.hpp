#pragma once

#include <cstddef>
#include <vector>

namespace levelswap {

/// Of an assembly, or of any short list of indices used as a key.
struct PartsHash {
    std::size_t operator()(std::vector<int> const& key) const {
        std::size_t h = key.size();
        for (int k : key) h = (h ^ static_cast<std::size_t>(k + 7)) * 0x9e3779b97f4a7c15ull, h ^= h >> 29;
        return h;
    }
};

}  // namespace levelswap
