// The lexer of photometric files: text cut into lines and numbers, each with its place.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scene/text/place.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct PhotometricLine {
    std::string_view text;  ///< without its end and blanks at the end
    int number = 1;
};

/// Ends of lines may be those of any system.
std::vector<PhotometricLine> photometric_lines(std::string_view text);

/// Numbers separated by blanks, commas and line ends, taken one after another.
class PhotometricNumbers {
  public:
    /// Cuts `lines` from `first` on. Everything that is not a finite number goes to `problems`.
    PhotometricNumbers(const std::vector<PhotometricLine>& lines, std::size_t first, const std::string& file,
                       ProblemList& problems);

    /// How many numbers are still to be taken, and how many have been.
    std::size_t left() const { return values_.size() - at_; }
    std::size_t taken() const { return at_; }

    /// The next number. When there is none, reports that `what` was expected and returns NaN.
    double take(const std::string& what);
    /// As `take`; reports one outside `range`, or not whole when `whole`, and returns NaN.
    double take(const std::string& what, Range range, bool whole = false);
    /// Reports a problem with the number at `index`, counted from 0.
    void problem(std::size_t index, const std::string& text);
    /// Reports a problem with the number taken last; there is one.
    void problem_with_last(const std::string& text) { problem(at_ - 1, text); }
    /// Reports whatever follows, which should be nothing.
    void finish(const std::string& expected);

  private:
    Place place(std::size_t index) const;

    struct Where {
        int line, column;
    };
    std::vector<double> values_;
    std::vector<Where> where_;
    Where end_{1, 1};
    std::size_t at_ = 0;
    bool short_ = false;
    std::string file_;
    ProblemList& problems_;
};

}  // namespace rakelight
