// A file that is either whole or not there: it is written under another name in the same folder and renamed
// at the end. A reader never sees half of it, and a failure leaves what was there before. What a killed
// process has left under such names the next one on this machine clears.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>

namespace rakelight {

/// A file being written. Removes its traces unless `commit` succeeds.
class SafeFile {
  public:
    /// \throws OutputError when the file cannot be made.
    explicit SafeFile(std::filesystem::path target);
    ~SafeFile();
    SafeFile(const SafeFile&) = delete;
    SafeFile& operator=(const SafeFile&) = delete;

    /// Puts bytes at a place counted from the start. False when the system refuses; `commit` then says why.
    bool write_at(const void* bytes, std::size_t count, std::int64_t offset) noexcept;

    /// Number of bytes from the start to the last one written.
    std::int64_t size() const noexcept { return size_; }

    /// The name it has until then: for libraries that will only write to a name.
    const std::filesystem::path& hidden() const noexcept { return hidden_; }

    /// Makes the file appear under its own name.
    /// \throws OutputError when any write failed before or the rename fails.
    void commit();

  private:
    std::filesystem::path target_;
    std::filesystem::path hidden_;
    int descriptor_ = -1;
    int first_error_ = 0;
    std::int64_t size_ = 0;
};

/// Writes a whole file. \throws OutputError; then nothing is left.
void write_file(const std::filesystem::path& target, std::string_view bytes);

/// The bytes of a file. \throws RequestError when it cannot be read.
std::string read_file(const std::filesystem::path& path);

/// Makes a folder (and those above it) and proves that files can be made in it: to be asked before hours of
/// work. \throws OutputError saying which folder and why.
void make_writable_folder(const std::filesystem::path& folder);

/// A name as part of a file name: letters, digits, '.', '-', '_' and all but ASCII are kept, anything else
/// becomes '-'; never hidden, empty or longer than 120 bytes. A longer one is cut and ends in eight
/// hexadecimal digits of its hash, so that two long names stay two.
std::string file_stem(std::string_view name);

/// Where finished files of a layout go: a folder in `into`, named after the layout file and after the changes
/// that are made to it, as "tide_grout-black_temperature-4000" for {"fields.sea.grout=black",
/// "lamps.temperature=4000"}: the last word of each key, or as many as tell it from the others.
std::filesystem::path finished_folder(const std::filesystem::path& into,
                                      const std::filesystem::path& layout_file,
                                      std::span<const std::string> changes = {});

}  // namespace rakelight
