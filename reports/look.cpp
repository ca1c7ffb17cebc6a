#include "reports/look.h"

#include <xlsxwriter.h>

#include <new>

namespace nonrunner::reports {

namespace {

constexpr lxw_color_t ink = 0x1F2A33, quiet = 0x5B6770, line = 0x8796A3, input_fill = 0xFFF6D6,
                      heading_fill = 0xE4EAEF;

// Never a point with nothing behind it: "#,##0.###" shows 115,200 as "115,200." in some programs.
std::string decimals(int least, int more) {
  std::string text = "#,##0";
  if (least > 0)
    text += "." + std::string(static_cast<std::size_t>(least), '0') +
            std::string(static_cast<std::size_t>(more), '#');
  return text;
}

std::string number_format(Form form, const Currency& currency) {
  switch (form) {
    case Form::text:
      return "@";
    case Form::words:
      return "General";  // under "@" an edited formula would turn into text
    case Form::money:
      return money_format(currency);
    case Form::money_or_nothing:
      return money_format(currency) + ";-" + money_format(currency) + ";";
    case Form::price:
      return decimals(currency.digits, currency.digits > 0 ? 3 : 0);
    case Form::decimal:
      return "#,##0.0##";
    case Form::factor:
      return "#,##0.0####";
    case Form::if_set:
      return "[>=1000000]\"not set\";#,##0.0##";
    case Form::whole:
      return "#,##0";
    case Form::percent:
      return "0.0%";
    case Form::rate:
      return "0.0#####%";
    case Form::year:
      return "0";
    case Form::day:
      return "yyyy-mm-dd";
    case Form::month:
      return "yyyy-mm";
  }
  return "General";
}

void dress(lxw_format* format, Look look) {
  const auto border = [&](std::uint8_t style, lxw_color_t color) {
    format_set_border(format, style);
    format_set_border_color(format, color);
  };
  switch (look.role) {
    case Role::plain:
      break;
    case Role::input:
      format_set_bg_color(format, input_fill);
      border(LXW_BORDER_DASHED, line);
      // Words that look like an input only show how one looks.
      if (look.form != Form::text) format_set_unlocked(format);
      break;
    case Role::total:
      format_set_bold(format);
      format_set_top(format, LXW_BORDER_THIN);
      format_set_top_color(format, ink);
      break;
    case Role::heading:
      format_set_bold(format);
      format_set_bg_color(format, heading_fill);
      format_set_bottom(format, LXW_BORDER_THIN);
      format_set_bottom_color(format, ink);
      break;
    case Role::section:
      format_set_bold(format);
      format_set_font_size(format, 12);
      break;
    case Role::title:
      format_set_bold(format);
      format_set_font_size(format, 16);
      break;
    case Role::answer:
      format_set_bold(format);
      format_set_font_size(format, answer_points);
      format_set_top(format, LXW_BORDER_MEDIUM);
      format_set_bottom(format, LXW_BORDER_MEDIUM);
      break;
    case Role::figure:
      format_set_bold(format);
      format_set_font_size(format, 13);
      break;
    case Role::note:
      format_set_font_color(format, quiet);
      format_set_font_size(format, note_points);
      break;
    case Role::caution:
      format_set_left(format, LXW_BORDER_THICK);
      format_set_left_color(format, ink);
      format_set_font_size(format, note_points);
      format_set_indent(format, 1);
      break;
    case Role::box:
      border(LXW_BORDER_THIN, ink);
      format_set_unlocked(format);
      break;
  }
}

}  // namespace

std::string money_format(const Currency& currency) { return decimals(currency.digits, 0); }

lxw_format* made(Look look, const Currency& currency, lxw_workbook* workbook) {
  lxw_format* format = workbook_add_format(workbook);
  if (!format) throw std::bad_alloc();
  if (look.role != Role::note) format_set_font_color(format, ink);
  format_set_num_format(format, number_format(look.form, currency).c_str());
  dress(format, look);
  // In the middle of its row, so that no letter touches a line above or below it.
  format_set_align(format, look.on_top && look.role != Role::heading && look.role != Role::answer
                               ? LXW_ALIGN_VERTICAL_TOP
                               : LXW_ALIGN_VERTICAL_CENTER);
  if (look.wrapped) format_set_text_wrap(format);
  // Rather small than ###, in a currency of large numbers.
  const bool number = look.form == Form::money || look.form == Form::money_or_nothing ||
                      look.form == Form::price || look.form == Form::decimal || look.form == Form::factor ||
                      look.form == Form::whole;
  if (number && !look.wrapped) format_set_shrink(format);
  if (look.form == Form::day || look.form == Form::month) format_set_align(format, LXW_ALIGN_LEFT);
  if (look.side == Look::Side::right) format_set_align(format, LXW_ALIGN_RIGHT);
  if (look.side == Look::Side::centre) format_set_align(format, LXW_ALIGN_CENTER);
  if (look.side == Look::Side::apart) format_set_indent(format, 1);
  return format;
}

}  // namespace nonrunner::reports
