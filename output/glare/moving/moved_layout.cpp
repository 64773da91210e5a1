#include "output/glare/moving/moved_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "output/system/errors.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/yaml_document.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

const YamlMember* member(const YamlValue& mapping, std::string_view key) {
    const auto at = std::find_if(mapping.members.begin(), mapping.members.end(),
                                 [&](const YamlMember& m) { return m.key.text == key; });
    return at == mapping.members.end() ? nullptr : &*at;
}

// A text whose places are known by line and column, changed from its end to its beginning.
class Edits {
  public:
    explicit Edits(std::string text) : text_(std::move(text)) {
        lines_.push_back(0);
        for (std::size_t i = 0; i < text_.size(); ++i)
            if (text_[i] == '\n') lines_.push_back(i + 1);
    }

    std::size_t at(const YamlValue& value) const {
        // Columns count characters, not bytes.
        std::size_t place = lines_.at(static_cast<std::size_t>(value.line) - 1);
        for (int column = 1; column < value.column && place < text_.size(); ++place)
            if ((static_cast<unsigned char>(text_[place + 1 < text_.size() ? place + 1 : place]) & 0xC0) !=
                0x80)
                ++column;
        return place;
    }
    std::size_t line_start(int line) const { return lines_.at(static_cast<std::size_t>(line) - 1); }
    char character(std::size_t place) const { return place < text_.size() ? text_[place] : '\0'; }

    void replace(std::size_t from, std::size_t length, const std::string& with) {
        auto& change = changes_[from];  // what is added in one place comes one after the other
        change.first += length;
        change.second += with;
    }
    // A plain or quoted scalar.
    void replace(const YamlValue& scalar, const std::string& with) {
        const std::size_t from = at(scalar);
        std::size_t to = from;
        if (const char quote = character(from); quote == '"' || quote == '\'') {
            to = text_.find(quote, from + 1) + 1;
        } else {
            to = text_.find_first_of(",]}#\n\r", from);
            to = std::min(to, text_.size());
            while (to > from && (text_[to - 1] == ' ' || text_[to - 1] == '\t')) --to;
        }
        replace(from, to - from, with);
    }

    std::string changed() const {
        std::string text = text_;
        for (auto change = changes_.rbegin(); change != changes_.rend(); ++change)
            text.replace(change->first, change->second.first, change->second.second);
        return text;
    }
    bool ends_in_line() const { return text_.empty() || text_.back() == '\n'; }
    std::size_t size() const { return text_.size(); }

  private:
    std::string text_;
    std::vector<std::size_t> lines_;
    std::map<std::size_t, std::pair<std::size_t, std::string>> changes_;
};

std::string number(double value) {
    return fmt::format("{:.6g}", std::abs(value) < 5e-7 ? 0.0 : value);
}

// Adds `key: value` as the first member of a mapping, in its own style.
void add_first(Edits& edits, const YamlMember& mapping, const std::string& entry) {
    const std::size_t start = edits.at(mapping.value);
    if (edits.character(start) == '{') {
        edits.replace(start + 1, 0, entry + (mapping.value.members.empty() ? "" : ", "));
        return;
    }
    const YamlValue& first = mapping.value.members.front().key;
    edits.replace(edits.line_start(first.line), 0,
                  std::string(static_cast<std::size_t>(first.column) - 1, ' ') + entry + "\n");
}

void set_room(Edits& edits, const YamlValue& file, std::vector<std::string>& missing, const std::string& key,
              double value) {
    const YamlMember* room = member(file, "room");
    const bool empty = !room || room->value.shape != YamlValue::Shape::mapping || room->value.members.empty();
    const std::string entry = key + ": " + number(value);
    if (empty)
        missing.push_back(entry);
    else if (const YamlMember* old = member(room->value, key))
        edits.replace(old->value, number(value));
    else
        add_first(edits, *room, entry);
}

const YamlValue* lamp_called(const YamlValue& lamps, const std::string& name) {
    for (const YamlValue& lamp : lamps.items)
        if (const YamlMember* own = member(lamp, "name"); own && own->value.text == name) return &lamp;
    return nullptr;
}

bool set_point(Edits& edits, const YamlValue& lamp, const char* key, const glm::dvec3& point) {
    const YamlMember* old = member(lamp, key);
    if (!old || old->value.items.size() != 3) return false;
    for (int axis = 0; axis < 3; ++axis)
        edits.replace(old->value.items[static_cast<std::size_t>(axis)], number(point[axis]));
    return true;
}

bool same(const Layout& a, const Layout& b) {
    const auto near = [](const glm::dvec3& p, const glm::dvec3& q) { return glm::distance(p, q) < 0.01; };
    return std::abs(a.panel.lean_deg - b.panel.lean_deg) < 1e-4 &&
           std::abs(a.panel.centre_height_mm - b.panel.centre_height_mm) < 0.01 &&
           std::equal(a.on.lamps.begin(), a.on.lamps.end(), b.on.lamps.begin(), b.on.lamps.end(),
                      [&](const Lamp& p, const Lamp& q) {
                          return p.name == q.name && near(p.at_mm, q.at_mm) && near(p.aim_mm, q.aim_mm);
                      });
}

[[noreturn]] void cannot(const Layout& layout, const std::string& why) {
    throw RequestError(
        fmt::format("{}: cannot be written with the advised changes: {}", layout.sources.path, why));
}

}  // namespace

std::string moved_layout_text(const Layout& layout, const Arrangement& how) {
    const std::string text = layout_file_text(layout.sources.path);
    const YamlValue file = parse_yaml(text, layout.sources.path);
    Edits edits(text);
    std::vector<std::string> missing;  // of a room section that is not there
    if (how.lean_deg != layout.panel.lean_deg) set_room(edits, file, missing, "lean", how.lean_deg);
    if (how.height_mm != layout.panel.centre_height_mm)
        set_room(edits, file, missing, "panel centre height", how.height_mm);
    if (!missing.empty()) {
        if (member(file, "room")) cannot(layout, "its section room is empty");
        std::string section = edits.ends_in_line() ? "room:\n" : "\nroom:\n";
        for (const std::string& entry : missing) section += "  " + entry + "\n";
        edits.replace(edits.size(), 0, section);
    }
    const YamlMember* lamps = member(file, "lamps");
    for (std::size_t i = 0; i < layout.on.lamps.size(); ++i) {
        const Lamp &now = layout.on.lamps[i], &then = how.lamps[i];
        if (now.at_mm == then.at_mm && now.aim_mm == then.aim_mm) continue;
        const YamlValue* lamp = lamps ? lamp_called(lamps->value, now.name) : nullptr;
        if (!lamp) cannot(layout, "it does not list " + now.name + " under lamps");
        if (now.at_mm != then.at_mm && !set_point(edits, *lamp, "at", then.at_mm))
            cannot(layout, "it does not say where " + now.name + " is");
        if (now.aim_mm != then.aim_mm && !set_point(edits, *lamp, "aim", then.aim_mm))
            cannot(layout, "it does not say where " + now.name + " is aimed");
    }
    std::string moved = edits.changed();
    if (!same(read_layout_text(moved, layout.sources.path), arranged(layout, how)))
        cannot(layout, "other parts of it depend on what is changed");
    return moved;
}

void check_moved_path(const Layout& layout, const fs::path& to) {
    if (!layout.sources.changes.empty())
        throw RequestError(
            "--moved: found --set as well, which is not in the file; write the change into the layout first");
    const auto folder = [](const fs::path& file) {
        return fs::weakly_canonical(fs::absolute(file).parent_path());
    };
    if (!layout.sources.files.empty() && folder(to) != folder(layout.sources.path))
        throw RequestError(
            fmt::format("--moved: found {}, expected a file beside {}, which names files there", to.string(),
                        layout.sources.path));
    if (fs::weakly_canonical(fs::absolute(to)) == fs::weakly_canonical(fs::absolute(layout.sources.path)))
        throw RequestError(
            fmt::format("--moved: found {} itself, expected another file", layout.sources.path));
}

}  // namespace rakelight
