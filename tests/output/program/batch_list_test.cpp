// The lines of a list, by what its help promises.
#include "output/program/batch_list.h"

#include <gtest/gtest.h>

#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

using Words = std::vector<std::string>;

TEST(BatchList, WordsOfALine) {
    EXPECT_EQ(words_of_line("  glare tide.yaml\t--viewpoint 'by the door'  # loud"),
              (Words{"glare", "tide.yaml", "--viewpoint", "by the door"}));
    EXPECT_EQ(words_of_line("a\"b c\"d \"\""), (Words{"ab cd", ""}));
    EXPECT_EQ(words_of_line("sea#2.yaml"), Words{"sea#2.yaml"});
    EXPECT_EQ(words_of_line("# only a remark"), Words{});
    EXPECT_EQ(words_of_line("tide.yaml\r"), Words{"tide.yaml"});
    EXPECT_THROW(words_of_line("glare \"tide.yaml"), RequestError);
}

TEST(BatchList, LayoutsCommandsAndPatterns) {
    const test::Folder folder;
    const Words commands{"preview", "glare", "stock"};
    for (const char* name : {"ebb.yaml", "flow.yaml", "flood.yml"}) std::ofstream(folder / name) << "x";
    const std::string at = folder.path().string() + "/";
    std::ofstream(folder / "night.txt") << "# night\n\nstock " << at << "ebb.yaml\n"
                                        << at << "f*.yaml  " << at << "gone.yaml\n"
                                        << at << "e??.yaml\nglar x.yaml\n\"open\n";
    const std::vector<BatchJob> jobs = batch_jobs(Words{at + "flood.yml", at + "night.txt"}, commands);
    ASSERT_EQ(jobs.size(), 7u);
    EXPECT_EQ(jobs[0].words, (Words{"preview", at + "flood.yml"}));
    EXPECT_EQ(jobs[1].words, (Words{"stock", at + "ebb.yaml"}));
    EXPECT_EQ(jobs[1].place, at + "night.txt:3");
    EXPECT_EQ(jobs[2].words, (Words{"preview", at + "flow.yaml"}));
    EXPECT_NE(jobs[3].complaint.find("gone.yaml"), std::string::npos) << jobs[3].complaint;
    EXPECT_EQ(jobs[4].words, (Words{"preview", at + "ebb.yaml"}));
    EXPECT_TRUE(jobs[4].complaint.empty());
    EXPECT_NE(jobs[5].complaint.find("did you mean glare?"), std::string::npos) << jobs[5].complaint;
    EXPECT_NE(jobs[5].complaint.find("night.txt:6"), std::string::npos) << jobs[5].complaint;
    EXPECT_FALSE(jobs[6].complaint.empty());
}

TEST(BatchList, NothingToDoIsSaid) {
    const test::Folder folder;
    std::ofstream(folder / "night.txt") << "# nothing\n";
    EXPECT_THROW(batch_jobs(Words{(folder / "night.txt").string()}, Words{}), RequestError);
    EXPECT_THROW(batch_jobs(Words{(folder / "none.txt").string()}, Words{}), RequestError);
}

}  // namespace
}  // namespace rakelight
