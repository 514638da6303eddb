// What all charts of a report share: the drawing with its text alternative, axes, the figure around it, the table.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "report/chart_scale.hpp"
#include "report/html.hpp"

namespace houseleek::report {

/// The table behind a chart, as texts; the first column heads the rows.
struct TableData {
  std::vector<std::string> heads;
  std::vector<std::vector<std::string>> rows;
};

/// A table with its own scroll. `caption` may be empty.
[[nodiscard]] Html table_from(const TableData& table, std::string_view caption);

/// The same behind a line that opens it.
[[nodiscard]] Html folded_table(const TableData& table, std::string_view summary);

struct Drawing {
  std::string id;           // of the document, unique
  std::string title;        // for those who cannot see it: what is drawn
  std::string description;  // what is seen
  double width = 420.0;
  double height = 250.0;
  bool is_wide = false;  // keeps a least width and scrolls by itself on a narrow screen
};

/// The <svg> with title and desc.
[[nodiscard]] Html drawing_from(const Drawing& drawing, const Html& content);

/// One chart or several small ones under one heading, with a table behind them.
struct ChartFigure {
  std::string id;
  std::string title;    // says what is seen
  std::string caption;  // what is drawn, units, where it comes from
  Html legend;          // may be empty
  std::vector<Html> panels;
  TableData table;
  bool is_wide = false;  // one panel a row
};
[[nodiscard]] Html html_from(const ChartFigure& figure);

enum class Anchor { start, middle, end };
[[nodiscard]] Html svg_text(double x, double y, std::string_view text, std::string_view css_class,
                            Anchor anchor = Anchor::start);
[[nodiscard]] Html svg_line(double x1, double y1, double x2, double y2, std::string_view css_class);

struct Box {
  double x = 0.0;
  double y = 0.0;
  double width = 0.0;
  double height = 0.0;
};
/// A rectangle; with `hover` it shows that text where a pointer rests.
[[nodiscard]] Html svg_box(const Box& box, std::string_view css_class, std::string_view hover = "");

/// Grid lines with labels left of them, and the unit above.
[[nodiscard]] Html left_axis(const Ticks& ticks, const Scale& y, double from_x, double to_x, std::string_view unit);

/// Swatch and words, one after the other.
struct LegendItem {
  std::string css_class;  // of the swatch
  std::string words;
  bool is_line = false;
};
[[nodiscard]] Html legend_from(const std::vector<LegendItem>& items);

inline constexpr std::string_view month_letters[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

/// 24 Jul, of a day of the year from 0.
[[nodiscard]] std::string day_words(int day_of_year);

}  // namespace houseleek::report
