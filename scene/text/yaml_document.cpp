#include "scene/text/yaml_document.h"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>
#include <utility>

#include "scene/text/units.h"

namespace rakelight {
namespace {

class TreeBuilder final : public YAML::EventHandler {
  public:
    explicit TreeBuilder(const std::string& file) : file_(std::make_shared<const std::string>(file)) {}

    YamlValue take() { return std::move(root_); }

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (++documents_ > 1) refuse(mark, "found a second document, expected only one");
    }
    void OnDocumentEnd() override {}

    void OnNull(const YAML::Mark& mark, YAML::anchor_t) override { add(mark, {}); }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
        refuse(mark, "found an alias (*), expected the value written out");
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                  const std::string& text) override {
        refuse_tag(mark, tag);
        YamlValue value;
        value.shape = YamlValue::Shape::scalar;
        value.text = text;
        add(mark, std::move(value));
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                         YAML::EmitterStyle::value) override {
        open(mark, tag, YamlValue::Shape::list);
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                    YAML::EmitterStyle::value) override {
        open(mark, tag, YamlValue::Shape::mapping);
    }
    void OnMapEnd() override { close(); }

  private:
    struct Level {
        YamlValue value;
        YamlValue key;  ///< of a mapping: the key whose value comes next
        bool has_key = false;
    };

    [[noreturn]] void refuse(const YAML::Mark& mark, std::string text) const {
        throw LayoutError({*file_, mark.line + 1, mark.column + 1}, "", std::move(text));
    }

    void refuse_tag(const YAML::Mark& mark, const std::string& tag) const {
        // "?" and "!" only say plain or quoted.
        if (!tag.empty() && tag != "?" && tag != "!")
            refuse(mark, "found the tag " + quoted(tag) + ", expected a value without a tag");
    }

    void open(const YAML::Mark& mark, const std::string& tag, YamlValue::Shape shape) {
        refuse_tag(mark, tag);
        if (std::cmp_greater_equal(levels_.size(), kMostDepth))
            refuse(mark, "found more than " + std::to_string(kMostDepth) + " levels of nesting");
        if (!levels_.empty() && wants_key())
            refuse(mark, "found a list or mapping as a key, expected a word");
        count(mark);
        Level level;
        level.value.shape = shape;
        put(level.value, mark);
        levels_.push_back(std::move(level));
    }

    void close() {
        YamlValue value = std::move(levels_.back().value);
        levels_.pop_back();
        place(std::move(value));
    }

    void add(const YAML::Mark& mark, YamlValue value) {
        count(mark);
        put(value, mark);
        if (!levels_.empty() && wants_key()) {
            if (value.shape != YamlValue::Shape::scalar)
                refuse(mark, "found nothing as a key, expected a word");
            levels_.back().key = std::move(value);
            levels_.back().has_key = true;
            return;
        }
        place(std::move(value));
    }

    bool wants_key() const {
        return levels_.back().value.shape == YamlValue::Shape::mapping && !levels_.back().has_key;
    }

    void place(YamlValue value) {
        if (levels_.empty()) {
            root_ = std::move(value);
            return;
        }
        Level& level = levels_.back();
        if (level.value.shape == YamlValue::Shape::list) {
            level.value.items.push_back(std::move(value));
            return;
        }
        if (value.shape == YamlValue::Shape::nothing) {
            // The parser's mark of nothing is that of whatever follows; the key is where the artist must
            // look.
            value.line = level.key.line;
            value.column = level.key.column;
        }
        level.value.members.push_back({std::move(level.key), std::move(value)});
        level.has_key = false;
    }

    void put(YamlValue& value, const YAML::Mark& mark) const {
        value.line = mark.line + 1;
        value.column = mark.column + 1;
        value.file = file_;
    }

    void count(const YAML::Mark& mark) {
        if (++values_ > kMostValues)
            refuse(mark,
                   "found more than " + std::to_string(kMostValues) + " values, expected a smaller file");
    }

    std::shared_ptr<const std::string> file_;
    YamlValue root_;
    std::vector<Level> levels_;
    int values_ = 0;
    int documents_ = 0;
};

// A tab in the indentation of the line where reading stopped or of the one before; line 0 = none.
Place tab_before(std::string_view text, int line, const std::string& file) {
    std::size_t start = 0;
    for (int number = 0; number <= line; ++number) {
        const std::size_t word = text.find_first_not_of(" \t", start);
        const std::size_t tab = text.find('\t', start);
        if (number + 1 >= line && tab < std::min(word, text.size()))
            return {file, number + 1, static_cast<int>(tab - start) + 1};
        start = text.find('\n', start);
        if (start == text.npos) break;
        ++start;
    }
    return {};
}

}  // namespace

YamlValue parse_yaml(std::string_view text, const std::string& file) {
    if (text.size() > kMostFileBytes)
        throw LayoutError({file, 0, 0}, "", "found a file over 8 MiB, expected a smaller one");
    std::istringstream stream{std::string(text)};
    TreeBuilder builder(file);
    try {
        YAML::Parser parser(stream);
        while (parser.HandleNextDocument(builder)) {
        }
    } catch (const YAML::Exception& error) {
        if (const Place tab = tab_before(text, error.mark.line, file); tab.line > 0)
            throw LayoutError(tab, "",
                              "found a tab before the first word, expected blanks: YAML takes no tabs there");
        throw LayoutError({file, error.mark.line + 1, error.mark.column + 1}, "",
                          "not valid YAML: " + error.msg);
    }
    return builder.take();
}

}  // namespace rakelight
