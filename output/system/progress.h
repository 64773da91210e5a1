// How far the work is: one redrawn line on a terminal, a plain line every tenth elsewhere, nothing when told
// to be quiet.
#pragma once

#include <chrono>
#include <cstdio>
#include <string>
#include <string_view>
#include <utility>

namespace rakelight {

/// Columns that UTF-8 text takes on a terminal: marks that combine take none, East Asian wide letters two.
/// Bytes that are not UTF-8 take one each.
int text_width(std::string_view text);

/// `label  [#####-----]  50 %  about 3 min left`, cut to `columns` (at least 20). The time is left out in the
/// first two seconds. Control characters of the label become blanks.
std::string progress_line(std::string_view label, double share, double elapsed_s, int columns);

enum class ProgressKind { redrawn, plain, quiet };

/// What fits a stream: redrawn on a terminal, plain otherwise and where TERM is unset or "dumb".
ProgressKind progress_kind(std::FILE* stream, bool quiet);

/// Shows progress of one piece of work. Calls must not overlap in time.
class Progress {
  public:
    Progress(std::string label, ProgressKind kind, std::FILE* stream = stderr);
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;
    /// `share` of the work done, 0..1.
    void show(double share);
    /// What is worked on from now on. Shown with the next `show`.
    void relabel(std::string label) { label_ = std::move(label); }
    /// Takes the redrawn line off the terminal, so that other lines can be printed.
    void clear();

  private:
    std::string label_;
    ProgressKind kind_;
    std::FILE* stream_;
    std::chrono::steady_clock::time_point start_;
    double shown_at_s_ = -1;
    int tenths_ = 0;
};

}  // namespace rakelight
