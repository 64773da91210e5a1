// The lines of a list, by what its help promises.
#include "output/batch/batch_list.h"

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

TEST(BatchList, AChoiceIsAKeyAndItsValues) {
    const Choice grouts = choice_of_line("  for fields.left sea.grout in black,  mid-grey , sand  # three");
    EXPECT_EQ(grouts.key, "fields.left sea.grout");
    EXPECT_EQ(grouts.values, (Words{"black", "mid-grey", "sand"}));
    EXPECT_EQ(choice_of_line("for panel.size in [300, 200], [400, 200]").values,
              (Words{"[300, 200]", "[400, 200]"}));
    EXPECT_EQ(choice_of_line("for panel.name in \"a, b\", c#").values, (Words{"\"a, b\"", "c#"}));
    for (const char* bad :
         {"for", "for grout", "for grout in ", "for in black", "for grout in black,", "for a in b, b"})
        EXPECT_THROW(choice_of_line(bad), RequestError) << bad;
}

TEST(BatchList, ChoicesMultiply) {
    const test::Folder folder;
    const Words commands{"preview", "stock"};
    std::ofstream(folder / "a.yaml") << "x";
    std::ofstream(folder / "b.yaml") << "x";
    const std::string at = folder.path().string() + "/";
    std::ofstream(folder / "night.txt")
        << at << "a.yaml " << at << "b.yaml\n  for k in 1, 2\n\n# and\n  for l in x, y, z\n"
        << "stock " << at << "a.yaml --lamps spots\nfor m in 5\nstock " << at << "b.yaml\n";
    const std::vector<BatchJob> jobs = batch_jobs(Words{at + "night.txt"}, commands);
    ASSERT_EQ(jobs.size(), 2u * 2 * 3 + 1 + 1);
    EXPECT_EQ(jobs[0].words, (Words{"preview", at + "a.yaml", "--set", "k=1", "--set", "l=x"}));
    EXPECT_EQ(jobs[1].words, (Words{"preview", at + "a.yaml", "--set", "k=1", "--set", "l=y"}));
    EXPECT_EQ(jobs[11].words, (Words{"preview", at + "b.yaml", "--set", "k=2", "--set", "l=z"}));
    EXPECT_EQ(jobs[12].words, (Words{"stock", at + "a.yaml", "--lamps", "spots", "--set", "m=5"}));
    EXPECT_EQ(jobs[13].words, (Words{"stock", at + "b.yaml"}));
}

TEST(BatchList, AJobWhoseChoiceIsWrongIsNotDone) {
    const test::Folder folder;
    std::ofstream(folder / "a.yaml") << "x";
    const std::string a = (folder / "a.yaml").string(), list = (folder / "night.txt").string();
    const auto jobs = [&](const std::string& text) {
        std::ofstream(list) << text;
        return batch_jobs(Words{list}, Words{"preview"});
    };
    std::vector<BatchJob> wrong = jobs(a + "\nfor grout black\n");
    ASSERT_EQ(wrong.size(), 1u);
    EXPECT_NE(wrong[0].complaint.find("night.txt:2: found \"for grout black\""), std::string::npos)
        << wrong[0].complaint;
    wrong = jobs("for grout in black\n" + a + "\n");
    ASSERT_EQ(wrong.size(), 2u);
    EXPECT_NE(wrong[0].complaint.find("expected the job"), std::string::npos);
    EXPECT_TRUE(wrong[1].complaint.empty());
    std::string many = a;
    for (int k = 0; k < 4; ++k) many += "\nfor k" + std::to_string(k) + " in 1, 2, 3, 4, 5, 6, 7";
    wrong = jobs(many + "\n");
    ASSERT_EQ(wrong.size(), 1u);  // 7^4 = 2401
    EXPECT_NE(wrong[0].complaint.find("more than 1000"), std::string::npos);
}

TEST(BatchList, NothingToDoIsSaid) {
    const test::Folder folder;
    std::ofstream(folder / "night.txt") << "# nothing\n";
    EXPECT_THROW(batch_jobs(Words{(folder / "night.txt").string()}, Words{}), RequestError);
    EXPECT_THROW(batch_jobs(Words{(folder / "none.txt").string()}, Words{}), RequestError);
}

}  // namespace
}  // namespace rakelight
