#include "output/paper/list_setter.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/paper/sheet_furniture.h"

namespace rakelight {

namespace {

using namespace furniture;

constexpr double kEnd_mm = 282;
constexpr double kLine_mm = 4.9;
constexpr double kParagraph_mm = 3.9;
constexpr double kLead_mm = 34;  // column of the leads

}  // namespace

ListSetter::ListSetter(std::string title, std::string subtitle, std::string source)
    : title_(std::move(title)), subtitle_(std::move(subtitle)), source_(std::move(source)) {}

void ListSetter::put(const std::string& text, double x, double size, bool bold, bool right, bool grey) {
    pages_.back().layers[0].texts.push_back(
        word(text, {x, y_}, size, bold, right ? Align::right : Align::left, grey ? kGrey : kBlack));
}

void ListSetter::rule(double width_mm) {
    pages_.back().layers.push_back(
        {"rule", {{}, kBlack, width_mm, {}}, {line_shape({{kLeft_mm, y_}, {kRight_mm, y_}})}, {}, {}});
}

void ListSetter::turn_page(const std::string& heading) {
    Tracing page;
    page.title = title_ + ": " + heading;
    page.note = source_;
    page.layers.push_back({"words", {}, {}, {}, {}});
    pages_.push_back(std::move(page));
    heading_ = heading;
    y_ = 21;
    put(cut(word(title_, {}, 7, true), 110).text, kLeft_mm, 7, true);
    put(heading, kRight_mm, 4.4, true, true);
    y_ += 5.5;
    put(subtitle_, kLeft_mm, kType_mm);
    y_ += 3.2;
    rule(0.3);
    y_ += 8;
}

void ListSetter::room_for(double mm) {
    if (y_ + mm <= kEnd_mm) return;
    turn_page(heading_);
    if (!columns_.empty()) put_titles();
}

void ListSetter::section(const std::string& heading, double wanted_mm) {
    columns_.clear();
    y_ += 3;
    room_for(wanted_mm);
    put(heading, kLeft_mm, 3.6, true);
    y_ += 5.2;
}

void ListSetter::put_titles() {
    for (const ListColumn& column : columns_) put(column.title, column.x_mm, 2.1, false, column.right, true);
    y_ += 1.4;
    rule(0.12);
    y_ += 4.2;
}

void ListSetter::columns(std::vector<ListColumn> columns) {
    columns_ = std::move(columns);
    put_titles();
}

void ListSetter::row(const std::vector<std::string>& cells, std::optional<Rgb8> swatch, bool bold) {
    room_for(kLine_mm);
    if (swatch) {
        const double x = columns_.front().x_mm;
        pages_.back().layers.push_back({"swatch",
                                        {*swatch, kGrey, 0.1, {}},
                                        {box_shape({{x - 7.5, y_ - 2.6}, {x - 1.5, y_ + 0.7}})},
                                        {},
                                        {}});
    }
    for (std::size_t i = 0; i < std::min(cells.size(), columns_.size()); ++i) {
        const ListColumn& column = columns_[i];
        put(column.most_mm > 0 ? cut(word(cells[i], {}, kType_mm, bold), column.most_mm).text : cells[i],
            column.x_mm, kType_mm, bold, column.right);
    }
    y_ += kLine_mm;
}

void ListSetter::paragraph(const std::string& text, const std::string& lead) {
    const double x = lead.empty() ? kLeft_mm : kLeft_mm + kLead_mm;
    const std::vector<std::string> lines = wrapped(word(text, {}, kType_mm), kRight_mm - x);
    room_for(kParagraph_mm * static_cast<double>(lines.size()));
    if (!lead.empty()) put(lead, kLeft_mm, kType_mm, true);
    for (const std::string& line : lines) {
        put(line, x, kType_mm);
        y_ += kParagraph_mm;
    }
    y_ += 1.1;
}

void ListSetter::note(const std::string& text, double x_mm) {
    y_ -= kLine_mm - kParagraph_mm;
    for (const std::string& line : wrapped(word(text, {}, kType_mm), kRight_mm - x_mm)) {
        room_for(kParagraph_mm);
        put(line, x_mm, kType_mm);
        y_ += kParagraph_mm;
    }
    y_ += kLine_mm - kParagraph_mm;
}

void ListSetter::figure(const std::string& value, const std::string& caption, int nth, int of) {
    const double x = kLeft_mm + (kRight_mm - kLeft_mm) * nth / of, most = (kRight_mm - kLeft_mm) / of - 3;
    double size = 6;
    while (size > 3 && width_mm(word(value, {0, 0}, size, true)) > most) size -= 0.2;
    y_ += 3;
    put(value, x, size, true);
    y_ += 4;
    put(cut(word(caption, {}, 2.2), most).text, x, 2.2, false, false, true);
    y_ -= 7;
    if (nth + 1 == of) y_ += 13;
}

glm::dvec2 ListSetter::drawing(double height_mm) {
    room_for(height_mm);
    const glm::dvec2 corner(kLeft_mm, y_ - 3);
    y_ += height_mm;
    return corner;
}

std::vector<Tracing> ListSetter::finish() {
    for (std::size_t i = 0; i < pages_.size(); ++i) {
        y_ = 290;
        auto& texts = pages_[i].layers[0].texts;
        texts.push_back(word(source_, {kLeft_mm, y_}, 1.9, false, Align::left, kGrey));
        texts.push_back(word(fmt::format("page {} of {}", i + 1, pages_.size()), {kRight_mm, y_}, 1.9, false,
                             Align::right, kGrey));
    }
    return std::move(pages_);
}

}  // namespace rakelight
