// Scripts as a shell reads them, and what they ask of the queue.
#include "output/farm/scripts.h"

#include <gtest/gtest.h>

#include <cstdlib>

#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

FarmTasks make_tasks(const std::string& on, int threads = 0) {
    FarmTasks tasks{on, "../..", threads, {}};
    const std::vector<FarmPicture> pictures{{"renders/tide", "straight", 5}};
    tasks.jobs.push_back({FarmWork::parts, {"preview", "tide.yaml"}, "n:1", 0, 5, {}, 100, pictures});
    tasks.jobs.push_back({FarmWork::join, {"preview", "tide.yaml"}, "n:1", 0, 1, {1}, 0, pictures});
    tasks.jobs.push_back({FarmWork::command, {"stock", "tide.yaml"}, "n:2", 7, 1, {2}, 0, {}});
    return tasks;
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != text.npos;
}

TEST(Scripts, AnArrayIsWrittenInRuns) {
    EXPECT_EQ(array_text({1, 2, 3, 4, 7, 9, 10}), "1-4,7,9-10");
    EXPECT_EQ(array_text({3}), "3");
    EXPECT_EQ(array_text({}), "");
}

TEST(Scripts, SlurmIsAskedForWhatIsLeft) {
    const std::string text = slurm_scripts(make_tasks("slurm"), {{1, 2, 5}, {1}, {1}}, "rakelight").hand_out;
    // Thrice 100 s and five minutes.
    EXPECT_TRUE(says(text, "hand 1 --array=1-2,5 --exclusive --time=10\n")) << text;
    EXPECT_TRUE(
        says(text, "hand 2 --array=1 --exclusive --kill-on-invalid-dep=yes --dependency=afterok:$job_1\n"));
    EXPECT_TRUE(says(text, "hand 3 --array=1 --exclusive --dependency=afterany:$job_2\n")) << text;
    EXPECT_TRUE(says(text, "--requeue")) << text;
    const std::string later = slurm_scripts(make_tasks("slurm", 4), {{}, {1}, {}}, "rakelight").hand_out;
    EXPECT_FALSE(says(later, "hand 1 ")) << later;
    EXPECT_TRUE(says(later, "hand 2 --array=1 --cpus-per-task=4\n")) << later;  // its parts are there
    EXPECT_FALSE(says(later, "hand 3 ")) << later;
}

TEST(Scripts, ParallelIsGivenStagesOneAfterAnother) {
    const std::string text =
        parallel_scripts(make_tasks("parallel"), {{2, 4}, {1}, {1}}, "rakelight").hand_out;
    EXPECT_TRUE(
        says(text, "tasks'\n1-2\n1-4\ntasks\nhand <<'tasks'\n2-1\ntasks\nhand <<'tasks'\n3-1\ntasks\n"))
        << text;
    EXPECT_TRUE(says(text, "--jobs 1 ")) << text;
    EXPECT_TRUE(
        says(parallel_scripts(make_tasks("parallel", 2), {{1}, {}, {}}, "r").hand_out, "--jobs 50% "));
}

TEST(Scripts, TheProgramIsCalledWhateverItsPath) {
    const test::Folder folder;
    const std::string odd = "o'dd $HOME \n{} \"x\"";
    std::filesystem::create_directory(folder / odd);
    const std::filesystem::path program = folder.write(odd + "/say", "#!/bin/sh\nprintf '%s|' \"$@\"\n");
    std::filesystem::permissions(program, std::filesystem::perms::owner_all);
    folder.write("slurm.sh", slurm_scripts(make_tasks("slurm"), {{}, {}, {}}, program.string()).task);
    folder.write("few.sh", parallel_scripts(make_tasks("parallel"), {{}, {}, {}}, program.string()).task);
    const std::string go = "cd '" + folder.path().string() + "' && ";
    ASSERT_EQ(std::system((go + "SLURM_ARRAY_TASK_ID=3 sh ./slurm.sh 1 >slurm").c_str()), 0);
    ASSERT_EQ(std::system((go + "sh ./few.sh 1-3 >few").c_str()), 0);
    for (const char* name : {"slurm", "few"}) {
        const std::string said = test::bytes_of(folder / name);
        EXPECT_TRUE(said.starts_with("task|--of|") && said.ends_with("|.|1-3|")) << said;
    }
}

TEST(Scripts, AreShellScripts) {
    const test::Folder folder;
    folder.write("a.sh", slurm_scripts(make_tasks("slurm"), {{1}, {1}, {1}}, "it's").hand_out);
    folder.write("b.sh", parallel_scripts(make_tasks("parallel"), {{1}, {1}, {1}}, "it's").hand_out);
    for (const char* name : {"a.sh", "b.sh"})
        EXPECT_EQ(std::system(("sh -n '" + (folder / name).string() + "'").c_str()), 0) << name;
}

}  // namespace
}  // namespace rakelight
