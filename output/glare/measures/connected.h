// Pixels that hang together by their edges.
#pragma once

#include <cstddef>
#include <vector>

namespace rakelight {

/// The marked pixels that hang together with `start`, which is marked; they are unmarked. Row-major, `width`
/// to a row.
inline std::vector<std::size_t> take_connected(std::vector<char>& marked, std::size_t start,
                                               std::size_t width) {
    std::vector<std::size_t> found{start};
    marked[start] = 0;
    for (std::size_t k = 0; k < found.size(); ++k) {
        const std::size_t i = found[k], x = i % width;
        const auto visit = [&](std::size_t j) {
            if (j < marked.size() && marked[j]) marked[j] = 0, found.push_back(j);
        };
        if (x > 0) visit(i - 1);
        if (x + 1 < width) visit(i + 1);
        if (i >= width) visit(i - width);
        visit(i + width);
    }
    return found;
}

}  // namespace rakelight
