// Rows of memory read as columns, against reading number by number.
#include "materials/maths/transposed.h"

#include <gtest/gtest.h>

#include <vector>

namespace rakelight {
namespace {

// Lane k reads from place 11 k on; every number is its place.
struct Rows {
    std::vector<float> all;
    Rows() {
        for (int i = 0; i < 96; ++i) all.push_back(static_cast<float>(i));
    }
    const float* operator()(std::size_t lane) const { return &all[11 * lane]; }
};

void expect_columns(const auto& columns) {
    for (std::size_t c = 0; c < columns.size(); ++c)
        for (std::size_t k = 0; k < kLanes; ++k)
            EXPECT_EQ(columns[c][k], static_cast<float>(11 * k + c)) << "column " << c << ", lane " << k;
}

TEST(Transposed, ColumnsAreTheNumbersOfEachRow) {
    const Rows rows;
    expect_columns(columns_of_2(rows));
    expect_columns(columns_of_4(rows));
    expect_columns(columns_of_8(rows));
}

TEST(Transposed, TwiceIsAsItWas) {
    LaneArray<Floats> rows;
    for (std::size_t r = 0; r < kLanes; ++r)
        for (std::size_t k = 0; k < kLanes; ++k) rows[r][k] = static_cast<float>(8 * r + k);
    const LaneArray<Floats> again = transposed(transposed(rows));
    for (std::size_t r = 0; r < kLanes; ++r)
        for (std::size_t k = 0; k < kLanes; ++k) EXPECT_EQ(again[r][k], rows[r][k]);
}

}  // namespace
}  // namespace rakelight
