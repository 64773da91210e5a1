// Tasks on disk, their names, and marks that change with what a task depends on.
#include "output/farm/tasks.h"

#include <gtest/gtest.h>

#include "output/film/film_file.h"
#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

FarmTasks make_tasks() {
    FarmTasks tasks{"slurm", "../..", 2, {}};
    const std::vector<FarmPicture> pictures{{"renders/o'dd\n{} $x", "straight", 0x0123456789abcdefu}};
    tasks.jobs.push_back({FarmWork::parts,
                          {"preview", "ti\"de.yaml", "--skip-finished"},
                          "night.txt:1",
                          0,
                          12,
                          {},
                          3.25,
                          pictures});
    tasks.jobs.push_back({FarmWork::join, {"preview", "ti\"de.yaml"}, "night.txt:1", 0, 1, {1}, 0, pictures});
    tasks.jobs.push_back({FarmWork::command, {"lay", "caf\xc3\xa9.yaml"}, "night.txt:2", 77, 1, {2}, 0, {}});
    return tasks;
}

TEST(Tasks, AreReadAsTheyWereWritten) {
    const test::Folder folder;
    const FarmTasks tasks = make_tasks();
    write_tasks(folder.path(), tasks);
    const FarmTasks read = read_tasks(folder.path());
    EXPECT_EQ(read.jobs, tasks.jobs);
    EXPECT_EQ(read.on, "slurm");
    EXPECT_EQ(read.seen_from, "../..");
    EXPECT_EQ(read.threads, 2);
    EXPECT_EQ(mark_of(read), mark_of(tasks));
}

TEST(Tasks, WhatIsNoneIsRefused) {
    const test::Folder folder;
    EXPECT_THROW(read_tasks(folder.path()), RequestError);
    for (const char* text : {"", "{}", "[]", "{\"program\": 3}"}) {
        folder.write("tasks.json", text);
        EXPECT_THROW(read_tasks(folder.path()), RequestError) << text;
    }
    FarmTasks tasks = make_tasks();
    tasks.jobs[2].after = {3};  // for itself
    write_tasks(folder.path(), tasks);
    EXPECT_THROW(read_tasks(folder.path()), RequestError);
    tasks = make_tasks();
    tasks.jobs[2].words.back() = "\xff.yaml";
    EXPECT_THROW(write_tasks(folder.path(), tasks), RequestError);
}

TEST(Tasks, HaveNames) {
    const FarmTasks tasks = make_tasks();
    EXPECT_EQ(parse_task("1-12", tasks), (TaskName{1, 12}));
    EXPECT_EQ(task_text({3, 1}), "3-1");
    for (const char* text : {"", "1", "1-13", "0-1", "4-1", "1-0", "1-2x", "x-2", "-1", "1--1"})
        EXPECT_THROW(parse_task(text, tasks), RequestError) << text;
}

TEST(Tasks, MarksChangeWithWhatATaskDependsOn) {
    const FarmTasks tasks = make_tasks();
    const auto changed = [&](auto&& change, int job) {
        FarmTasks other = make_tasks();
        change(other);
        return mark_of(other, job) != mark_of(tasks, job);
    };
    EXPECT_TRUE(changed([](FarmTasks& t) { t.jobs[0].words.push_back("--size"); }, 1));
    EXPECT_TRUE(changed([](FarmTasks& t) { t.jobs[0].pictures[0].scene_hash ^= 1; }, 1));
    EXPECT_TRUE(changed([](FarmTasks& t) { t.jobs[0].tasks = 13; }, 1));
    EXPECT_TRUE(changed([](FarmTasks& t) { t.jobs[2].sources = 78; }, 3));
    // A page of what was rendered anew is made anew.
    EXPECT_TRUE(changed([](FarmTasks& t) { t.jobs[0].pictures[0].scene_hash ^= 1; }, 3));
    EXPECT_FALSE(changed([](FarmTasks& t) { t.jobs[2].sources = 78; }, 1));
    EXPECT_FALSE(changed([](FarmTasks& t) { t.jobs[0].task_s = 99; }, 1));  // a guess, no ingredient
}

TEST(Tasks, APartIsThereWhenItsFileIsOfTheScene) {
    const test::Folder folder;
    FarmJob job{FarmWork::parts,
                {"preview", "tide.yaml"},
                "",
                0,
                2,
                {},
                0,
                {{folder.path().string(), "straight", 0}}};
    const PictureNotes notes = test::make_notes();
    job.pictures[0].scene_hash = notes.scene_hash;
    EXPECT_FALSE(has_its_files(job, 1));
    write_film(part_file(job.pictures[0], 1, 2), test::make_film(4, 6, {0, 3}), notes);
    EXPECT_TRUE(has_its_files(job, 1));
    EXPECT_FALSE(has_its_files(job, 2));
    job.pictures[0].scene_hash ^= 1;
    EXPECT_FALSE(has_its_files(job, 1));
    folder.write("straight.part-2-of-2.exr", "not a film");
    EXPECT_FALSE(has_its_files(job, 2));
}

}  // namespace
}  // namespace rakelight
