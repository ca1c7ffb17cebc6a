#include "reports/chart.h"

#include <xlsxwriter.h>

#include <algorithm>
#include <new>

namespace nonrunner::reports {

namespace {

constexpr lxw_color_t ink = 0x1F2A33, rule = 0xC9D2D9;

lxw_color_t colour(Paint paint) {
  switch (paint) {
    case Paint::strong:
      return 0x1D4E7A;
    case Paint::middle:
      return 0xC8742B;
    case Paint::light:
      return 0xA9C3D6;
    case Paint::striped:
      return 0xC8742B;
    case Paint::dotted:
      return 0x5B6770;
    case Paint::none:
      break;
  }
  return 0xFFFFFF;
}

void fill(lxw_chart_series* series, Paint paint) {
  if (paint == Paint::none) {
    lxw_chart_fill nothing{};
    nothing.none = LXW_TRUE;
    chart_series_set_fill(series, &nothing);
    lxw_chart_line no_line{};
    no_line.none = LXW_TRUE;
    chart_series_set_line(series, &no_line);
    return;
  }
  lxw_chart_line edge{};
  edge.color = colour(paint);
  edge.width = 0.75F;
  chart_series_set_line(series, &edge);
  if (paint == Paint::striped || paint == Paint::dotted) {
    lxw_chart_pattern pattern{};
    pattern.fg_color = colour(paint);
    pattern.bg_color = 0xFFFFFF;
    pattern.type =
        paint == Paint::striped ? LXW_CHART_PATTERN_WIDE_UPWARD_DIAGONAL : LXW_CHART_PATTERN_PERCENT_50;
    chart_series_set_pattern(series, &pattern);
    return;
  }
  lxw_chart_fill solid{};
  solid.color = colour(paint);
  chart_series_set_fill(series, &solid);
}

void draw(lxw_chart_series* series, const Series& plan) {
  lxw_chart_line line{};
  line.color = colour(plan.paint);
  line.width = 2.0F;
  line.none = plan.line ? LXW_FALSE : LXW_TRUE;
  line.dash_type = plan.dashed ? LXW_CHART_LINE_DASH_DASH : LXW_CHART_LINE_DASH_SOLID;
  chart_series_set_line(series, &line);
  if (plan.mark == Mark::none) {
    chart_series_set_marker_type(series, LXW_CHART_MARKER_NONE);
    return;
  }
  chart_series_set_marker_type(series,
                               plan.mark == Mark::crossed ? LXW_CHART_MARKER_X : LXW_CHART_MARKER_CIRCLE);
  chart_series_set_marker_size(series, plan.mark == Mark::small ? 4 : 10);
  lxw_chart_fill solid{};
  solid.color = colour(plan.paint);
  chart_series_set_marker_fill(series, &solid);
  lxw_chart_line edge{};
  edge.color = colour(plan.paint);
  chart_series_set_marker_line(series, &edge);
}

std::uint8_t library_kind(Chart::Kind kind) {
  switch (kind) {
    case Chart::Kind::bars:
      return LXW_CHART_BAR;
    case Chart::Kind::stacked_bars:
      return LXW_CHART_BAR_STACKED;
    case Chart::Kind::columns:
      return LXW_CHART_COLUMN;
    case Chart::Kind::stacked_columns:
      return LXW_CHART_COLUMN_STACKED;
    case Chart::Kind::lines:
      return LXW_CHART_SCATTER_STRAIGHT_WITH_MARKERS;
  }
  return LXW_CHART_BAR;
}

bool lies_down(const Chart& plan) {
  return plan.kind == Chart::Kind::bars || plan.kind == Chart::Kind::stacked_bars;
}
bool is_stacked(const Chart& plan) {
  return plan.kind == Chart::Kind::stacked_bars || plan.kind == Chart::Kind::stacked_columns;
}

lxw_chart_font small_font() {
  lxw_chart_font small{};
  small.size = 11;  // printed at 73 % still 8 points
  small.color = ink;
  return small;
}

void label(lxw_chart_series* series, const Series& plan, const Chart& chart) {
  chart_series_set_labels(series);
  if (plan.label_is_name) chart_series_set_labels_options(series, LXW_TRUE, LXW_FALSE, LXW_FALSE);
  chart_series_set_labels_num_format(series, "#,##0;-#,##0;;");
  lxw_chart_font font = small_font();
  if (plan.paint == Paint::strong && is_stacked(chart)) font.color = 0xFFFFFF;
  chart_series_set_labels_font(series, &font);
  if (chart.kind == Chart::Kind::lines)
    chart_series_set_labels_position(series, LXW_CHART_LABEL_POSITION_ABOVE);
}

// The places of those without a name, which stand in no legend.
std::vector<std::int16_t> add_series(lxw_chart* chart, const Chart& plan) {
  std::vector<std::int16_t> unnamed;
  for (std::size_t i = 0; i < plan.series.size(); ++i) {
    const Series& each = plan.series[i];
    lxw_chart_series* series =
        chart_add_series(chart, ("=" + each.categories).c_str(), ("=" + each.values).c_str());
    if (!series) throw std::bad_alloc();
    if (each.name.empty())
      unnamed.push_back(static_cast<std::int16_t>(i));
    else
      chart_series_set_name(series, each.name.c_str());
    if (plan.kind == Chart::Kind::lines)
      draw(series, each);
    else
      fill(series, each.paint);
    if (each.labelled || each.label_is_name) label(series, each, plan);
  }
  return unnamed;
}

void set_title(lxw_chart* chart, const Chart& plan) {
  if (plan.title.empty()) return chart_title_off(chart);
  lxw_chart_font font{};
  font.size = 12;
  font.bold = LXW_TRUE;
  font.color = ink;
  chart_title_set_name(chart, plan.title.c_str());
  chart_title_set_name_font(chart, &font);
}

void set_axes(lxw_chart* chart, const Chart& plan) {
  lxw_chart_axis *across = chart->x_axis, *up = chart->y_axis;
  lxw_chart_font small = small_font();
  lxw_chart_line grid{};
  grid.color = rule;
  grid.width = 0.5F;
  for (lxw_chart_axis* axis : {across, up}) {
    chart_axis_set_num_font(axis, &small);
    chart_axis_set_name_font(axis, &small);
    chart_axis_set_label_position(axis, LXW_CHART_AXIS_LABEL_POSITION_LOW);
  }
  if (!plan.across.empty()) chart_axis_set_name(across, plan.across.c_str());
  if (!plan.up.empty()) chart_axis_set_name(up, plan.up.c_str());
  if (!plan.across_format.empty()) chart_axis_set_num_format(across, plan.across_format.c_str());
  if (!plan.up_format.empty()) chart_axis_set_num_format(up, plan.up_format.c_str());
  lxw_chart_axis* values = lies_down(plan) ? across : up;
  chart_axis_major_gridlines_set_visible(values, LXW_TRUE);
  chart_axis_major_gridlines_set_line(values, &grid);
  if (lies_down(plan)) {
    chart_axis_set_reverse(up);           // the first row on top
    chart_axis_set_interval_unit(up, 1);  // every name is shown
  }
  if (plan.from_zero) chart_axis_set_min(values, 0);
  if (plan.most) chart_axis_set_max(values, *plan.most);
  if (plan.across_ends) {
    chart_axis_set_min(across, plan.across_ends->first);
    chart_axis_set_max(across, plan.across_ends->last);
    chart_axis_set_major_unit(across, plan.across_ends->step);
  }
}

void set_legend(lxw_chart* chart, const Chart& plan, std::vector<std::int16_t> unnamed) {
  if (!plan.legend) return chart_legend_set_position(chart, LXW_CHART_LEGEND_NONE);
  lxw_chart_font small = small_font();
  chart_legend_set_position(chart, LXW_CHART_LEGEND_BOTTOM);
  chart_legend_set_font(chart, &small);
  if (unnamed.empty()) return;
  unnamed.push_back(-1);  // the end mark that the library asks for
  if (chart_legend_delete_series(chart, unnamed.data()) != LXW_NO_ERROR) throw std::bad_alloc();
}

}  // namespace

std::uint32_t drawn(Chart& chart, std::size_t all, std::size_t most, const std::string& which) {
  if (all > most) chart.title += "; " + which + " " + std::to_string(most) + " of " + std::to_string(all);
  return static_cast<std::uint32_t>(std::min(all, most));
}

lxw_chart* made(const Chart& plan, lxw_workbook* workbook) {
  lxw_chart* chart = workbook_add_chart(workbook, library_kind(plan.kind));
  if (!chart) throw std::bad_alloc();
  std::vector<std::int16_t> unnamed = add_series(chart, plan);
  set_title(chart, plan);
  set_axes(chart, plan);
  if (plan.over_each_other || is_stacked(plan)) chart_set_series_overlap(chart, 100);
  if (plan.kind != Chart::Kind::lines) chart_set_series_gap(chart, static_cast<std::uint16_t>(plan.gap));
  chart_show_hidden_data(chart);  // names and helper figures stand where nobody has to see them
  set_legend(chart, plan, std::move(unnamed));
  lxw_chart_line frame{};
  frame.none = LXW_TRUE;
  chart_chartarea_set_line(chart, &frame);
  return chart;
}

}  // namespace nonrunner::reports
