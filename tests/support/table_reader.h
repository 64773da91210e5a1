// Reads the two kinds of table that colour tests are judged by: comma-separated files of tests/data, and the
// CGATS-like spectral files of the colord-data package (keyword lines, then rows between BEGIN_DATA and
// END_DATA).
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace rakelight::test {

/// Rows of text cells; `column` finds one by its heading.
struct CsvTable {
    std::vector<std::string> heading;
    std::vector<std::vector<std::string>> rows;

    std::size_t column(const std::string& name) const {
        for (std::size_t i = 0; i < heading.size(); ++i)
            if (heading[i] == name) return i;
        throw std::out_of_range("no column " + name);
    }
    double number(std::size_t row, const std::string& name) const {
        return std::stod(rows.at(row).at(column(name)));
    }
    /// The cells under headings made of a prefix and a wavelength in nanometres.
    std::vector<double> curve(std::size_t row, const std::string& prefix, int first_nm, int last_nm,
                              int step_nm) const {
        std::vector<double> values;
        for (int nm = first_nm; nm <= last_nm; nm += step_nm) {
            std::string name = prefix;
            name += std::to_string(nm);
            values.push_back(number(row, name));
        }
        return values;
    }
};

/// Curves sampled at a constant step, one a row.
struct SpectralTable {
    double start_nm = 0;
    double end_nm = 0;
    std::vector<std::vector<double>> rows;

    double step_nm() const { return (end_nm - start_nm) / static_cast<double>(rows.at(0).size() - 1); }
    /// Value at a wavelength that is one of the samples.
    double at(std::size_t row, double nm) const {
        return rows.at(row).at(static_cast<std::size_t>((nm - start_nm) / step_nm() + 0.5));
    }
};

inline std::ifstream open_table(const std::string& path) {
    std::ifstream file(path);
    if (!file) throw std::runtime_error("cannot read " + path);
    return file;
}

inline CsvTable read_csv(const std::string& path) {
    std::ifstream file = open_table(path);
    const auto cells = [](const std::string& line) {
        std::vector<std::string> row;
        std::istringstream in(line);
        for (std::string cell; std::getline(in, cell, ',');) row.push_back(cell);
        return row;
    };
    CsvTable table;
    std::string line;
    while (std::getline(file, line) && line.starts_with('#')) {  // where the table comes from
    }
    table.heading = cells(line);
    while (std::getline(file, line))
        if (!line.empty()) table.rows.push_back(cells(line));
    return table;
}

inline SpectralTable read_spectral_table(const std::string& path) {
    std::ifstream file = open_table(path);
    SpectralTable table;
    bool in_data = false;
    for (std::string line; std::getline(file, line);) {
        std::istringstream in(line);
        std::string word;
        in >> word;
        if (word == "SPECTRAL_START_NM") in >> table.start_nm;
        if (word == "SPECTRAL_END_NM") in >> table.end_nm;
        if (word == "END_DATA") in_data = false;
        if (in_data && !word.empty()) {
            std::vector<double> row{std::stod(word)};
            for (double value = 0; in >> value;) row.push_back(value);
            table.rows.push_back(row);
        }
        if (word == "BEGIN_DATA") in_data = true;
    }
    if (table.rows.empty()) throw std::runtime_error("no data in " + path);
    return table;
}

}  // namespace rakelight::test
