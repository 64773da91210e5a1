// What one run writes another reads.
#include "output/system/job_words.h"

#include <gtest/gtest.h>

#include "output/system/progress.h"

namespace rakelight {
namespace {

TEST(JobWords, ProgressAsItIsPrintedIsRead) {
    char* text = nullptr;
    std::size_t size = 0;
    std::FILE* stream = open_memstream(&text, &size);
    {
        Progress progress("by the sea: low tide", ProgressKind::plain, stream);
        progress.show(0.4);
    }
    std::fclose(stream);
    const std::string line(text, size - 1);
    std::free(text);
    const auto told = progress_in(line);
    ASSERT_TRUE(told) << line;
    EXPECT_EQ(told->what, "by the sea: low tide");
    EXPECT_EQ(told->share, 0.4);
    EXPECT_TRUE(progress_in("straight: 10 %  about 3 min left"));
}

TEST(JobWords, OtherLinesAreNotProgress) {
    for (const char* line : {"Warning: mix: 40 %", "Note: straight: 40 %", "sea: 40 % of the pieces are cut",
                             "", "tide.yaml:3:4: found 4", "sea: x %", "sea: 140 %"})
        EXPECT_FALSE(progress_in(line)) << line;
}

TEST(JobWords, PicturesOfADryRunAreRead) {
    const auto picture = picture_in(picture_line("ren ders/a  b/straight on", 1200, 924, "to render"));
    ASSERT_TRUE(picture);
    EXPECT_EQ(picture->folder, "ren ders/a  b");
    EXPECT_EQ(picture->stem, "straight on");
    EXPECT_EQ(picture->width_px, 1200);
    EXPECT_EQ(picture->height_px, 924);
    EXPECT_FALSE(picture->finished);
    EXPECT_TRUE(picture_in(picture_line("straight", 16, 16, "finished"))->finished);
    EXPECT_EQ(picture_in(picture_line("straight", 16, 16, "finished"))->folder, "");
    for (const char* line : {"", "straight", "straight  12x  to render", "straight  axb  to render"})
        EXPECT_FALSE(picture_in(line)) << line;
}

}  // namespace
}  // namespace rakelight
