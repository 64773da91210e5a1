// States of tasks, whose machines may have gone.
#include "output/farm/status.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>

#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

namespace fs = std::filesystem;

FarmTasks make_tasks() {
    FarmTasks tasks{"slurm", "..", 0, {}};
    tasks.jobs.push_back({FarmWork::parts, {"preview", "tide.yaml"}, "n:1", 0, 6, {}, 0, {}});
    return tasks;
}

// A process number that has just been given back.
int gone_process() {
    const pid_t child = ::fork();
    if (child == 0) ::_exit(0);
    ::waitpid(child, nullptr, 0);
    return child;
}

TEST(Status, CountsEveryTaskOnce) {
    const test::Folder folder;
    const FarmTasks tasks = make_tasks();
    write_tasks(folder.path(), tasks);
    const std::uint64_t mark = mark_of(tasks, 1);
    write_state(folder.path(), {1, 1}, state_here(TaskStage::done, mark));
    TaskState running = state_here(TaskStage::running, mark);
    running.share = 0.5;
    write_state(folder.path(), {1, 2}, running);
    TaskState failed = state_here(TaskStage::failed, mark);
    failed.code = 3;
    write_state(folder.path(), {1, 3}, failed);
    write_state(folder.path(), {1, 4}, state_here(TaskStage::done, mark + 1));  // of other work
    folder.write("state/1-5", "nonsense\n");
    const FarmStatus status = farm_status(folder.path());
    EXPECT_EQ(status.all.tasks, 6);
    EXPECT_EQ(status.all.done, 1);
    EXPECT_EQ(status.all.running, 1);
    EXPECT_EQ(status.all.failed, 1);
    EXPECT_EQ(status.all.left, 3);
    EXPECT_DOUBLE_EQ(status.jobs[0].share, (1 + 0.5) / 6);
    ASSERT_EQ(status.failures.size(), 1u);
    EXPECT_EQ(status.failures[0].task, "1-3");
    EXPECT_EQ(status.failures[0].code, 3);
}

TEST(Status, WhatGivesNoSignOfLifeIsLeft) {
    const test::Folder folder;
    const FarmTasks tasks = make_tasks();
    write_tasks(folder.path(), tasks);
    TaskState away = state_here(TaskStage::running, mark_of(tasks, 1));
    away.machine = "another-machine";
    write_state(folder.path(), {1, 1}, away);
    EXPECT_EQ(farm_status(folder.path()).all.running, 1);
    fs::last_write_time(folder / "state/1-1", fs::file_time_type::clock::now() -
                                                  std::chrono::seconds(static_cast<int>(kSilent_s) + 5));
    EXPECT_EQ(farm_status(folder.path()).all.running, 0);
    // On this machine it is known at once.
    TaskState here = state_here(TaskStage::running, mark_of(tasks, 1));
    here.process = gone_process();
    write_state(folder.path(), {1, 2}, here);
    EXPECT_EQ(farm_status(folder.path()).all.running, 0);
    EXPECT_EQ(farm_status(folder.path()).all.left, 6);
}

TEST(Status, LeavesNothingInTheFolder) {
    const test::Folder folder;
    write_tasks(folder.path(), make_tasks());
    EXPECT_EQ(farm_status(folder.path()).all.left, 6);
    EXPECT_EQ(folder.entries(), 1u);  // and leaves nothing there
}

}  // namespace
}  // namespace rakelight
