// What a sample board is to show: a part of the panel, and rows and columns of choices, as the layout file's
// section `board` says it. Words are those of a workshop: a test piece is a small true piece of the work.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "scene/text/place.h"
#include "scene/text/yaml_document.h"

namespace rakelight {

struct Layout;

/// A key of the layout and what it becomes.
struct KeyChange {
    YamlValue path;
    YamlValue value;
};

/// One row or column: what is changed in all of its cells. Empty members change nothing.
struct BoardChoice {
    std::string label;
    std::vector<KeyChange> set;                     ///< any key, see tree_override.h
    std::vector<KeyChange> swap;                    ///< stock laid instead of other stock
    std::optional<YamlValue> grout;                 ///< a tint, or none
    std::optional<YamlValue> bed;                   ///< a tint
    std::optional<YamlValue> joint;                 ///< width
    std::optional<YamlValue> recess;                ///< of the grout below the faces
    std::optional<YamlValue> light;                 ///< a set-up that is on
    std::optional<YamlValue> finish;                ///< of the grout; cured leaves it bare
    std::optional<std::vector<std::string>> lamps;  ///< names or groups that are lit
    std::optional<double> distance_m;               ///< from which the cell is seen as an eye resolves it
    Place place;
    std::string key;  ///< path of the choice, for messages
};

enum class BoardPart { test_piece, part, around };
enum class BoardAim { none, blend, show_flow, deepen_colour };

struct BoardPlan {
    std::string title;
    BoardPart part = BoardPart::test_piece;
    std::string field;   ///< whose keys the short words change; empty = all fields
    bool whole = false;  ///< a part that takes all of the panel
    glm::dvec2 at_mm{};  ///< of a part: lower left corner on the panel
    glm::dvec2 size_mm{90, 90};
    std::vector<BoardChoice> rows, columns;  ///< each at least one; of the only one the label may be empty
    std::size_t reference_row = 0, reference_column = 0;
    BoardAim aim = BoardAim::none;
    double eye_mm = 1000;  ///< distance of the eye, straight in front of the part
    int width_px = 360;    ///< of a cell
    int a_line = 0;        ///< cells side by side where there is but one row; 0 = as suits
    double error = 0.02;   ///< as in Picture
    int most_samples = 96;
    std::optional<double> ev;  ///< exposure; none = by a grey card under the reference cell's lamps
    Place place;

    /// Rows have cells under the same choice of columns; the reference of a cell stands in its own row, or on
    /// a board of one column in its own column.
    std::size_t reference_of(std::size_t cell) const {
        const std::size_t row = cell / columns.size();
        return columns.size() > 1 ? row * columns.size() + reference_column : reference_row;
    }
    std::size_t cells() const { return rows.size() * columns.size(); }
    int height_px() const;
};

/// More cells than this are refused.
inline constexpr std::size_t kMostBoardCells = 144;

/// Likewise pixels of all cells: they are kept until all are there to be compared.
inline constexpr double kMostBoardPixels = 80e6;

/// Changes a layout's tree by a row and a column. `fields`: of the layout as it is written.
/// \throws LayoutError at the place of a choice that cannot be made.
void choose(YamlValue& tree, const BoardPlan& plan, const BoardChoice& row, const BoardChoice& column,
            const Layout& layout);

}  // namespace rakelight
