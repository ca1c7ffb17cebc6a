#!/bin/bash
# The workbooks judged by another program: recalculated, with changed inputs, printed. Plain argument: the test program.
#   tests/outside/workbooks.sh .build/plain/tests [FOLDER FOR PICTURES]
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
[ -n "${NONRUNNER_HELD_OFFICE:-}" ] || exec /usr/bin/python3 "$here/office.py" hold bash "$0" "$@"
program=$(realpath "$1")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
NONRUNNER_WORKBOOKS=$folder "$program" "[.invented-workbooks]" >"$folder/log" || { cat "$folder/log"; exit 1; }
cell() { "$here/recalculate.py" "$1" --find "$2" | awk -v column="$3" '{sub(/^[A-Z]+/, column, $NF); print $NF}'; }

"$here/package.py" --told-in "$here/../../DEVELOPERS.md" "$folder"/*.xlsx
/usr/bin/python3 "$here/breaks_are_seen.py" "$folder/profit-sold.xlsx"
"$here/recalculate.py" "$folder"/*.xlsx
sold=$folder/profit-sold.xlsx
"$here/recalculate.py" "$sold" --equals "$folder/profit-changed.xlsx" --but Inputs Result --set sale_price=2795.25 --set shop_hour=19.45 \
  --set "Entries!$(cell "$sold" "Entries!D=radiator" I)=75.99" --set "Log!$(cell "$sold" "Log!B=front brakes" C)=6.75"
# The variances account for the whole difference of the cash profit, whatever is changed: expected + that of the sale
# price - those of the money = the real one. The expected one is made of the sums that stand there.
adds_up() {
  local told
  told=$("$here/recalculate.py" "$@" --names expected_cash_profit,sale_price_variance,money_variance,cash_profit,variances_must_be_zero)
  echo "variances: $told"
  /usr/bin/python3 - "$told" <<'PYTHON'
import json, sys
told = json.loads(sys.argv[1])
assert told["variances_must_be_zero"] == 0, told
assert abs(told["expected_cash_profit"] + told["sale_price_variance"] - told["money_variance"] - told["cash_profit"]) < 0.005, told
PYTHON
}
adds_up "$sold"
adds_up "$sold" --set sale_price=2795.25 --set "VarianceMoney!$(cell "$sold" "VarianceMoney!B=radiator" D)=71.05" \
  --set "Variance!$(cell "$sold" "Variance!B=sale price" E)=3333.33" --set "Entries!$(cell "$sold" "Entries!D=radiator" I)=163.99"
adds_up "$folder/profit-owned.xlsx" --set sale_price=2600
# Taken to pieces: there is no sale price to begin with or to break even at, and an amount on both sides of zero (560
# recovered, then 700 for the purchase) stands in one piece.
/usr/bin/python3 - "$folder/profit-pieces.xlsx" "$folder/profit-finished.xlsx" <<'PYTHON'
import openpyxl, re, sys, zipfile
for path in sys.argv[1:]:
    book = openpyxl.load_workbook(path, data_only=True)
    steps = [row[5] for row in book["Money"].iter_rows(values_only=True) if row[5]]
    assert "less purchase  700" in steps and "cash profit  -3" in " ".join(steps), (path, steps)
    says = {row[0]: row[3] for row in book["Account"].iter_rows(values_only=True)}
    name = next(name for name in says if name and name.endswith("ecovered, with own hours"))
    assert says[name] == "cost and own hours less all that it brought", (path, says[name])
    with zipfile.ZipFile(path) as parts:
        way = next(xml for xml in (parts.read(each).decode() for each in parts.namelist() if "charts/chart" in each) if "to the profit" in xml)
    assert "From what it brought" in way and "<c:dLbls>" not in way and "$F$" in way, path
PYTHON
appraisal=$folder/appraisal.xlsx
"$here/recalculate.py" "$appraisal" --equals "$folder/appraisal-changed.xlsx" --but Risk Moves Tests Plan Ways Comparables Way Inputs Answer --by-name Haggling --set asking_price=1210.5 --set sound_value=3701.11 \
  --set shop_hour=23.45 --set aim_profit=430 --set pace=1.55 --set opening_up_hours=4.25 --set "Costs!$(cell "$appraisal" "Costs!A=radiator" E)=101.4" \
  --set "Costs!$(cell "$appraisal" "Costs!A=strip the belt side, change the pump" G)=5.05"
job=$folder/job.xlsx
"$here/recalculate.py" "$job" --equals "$folder/job-changed.xlsx" --but Inputs Job --set expected_price=2999.99 --set "Account!$(cell "$job" "Account!A=Commission, share of the sale price" B)=0.0725" \
  --set "Account!$(cell "$job" "Account!A=Selling costs so far" B)=17.25" --set "Account!$(cell "$job" "Account!A=Deposit kept" B)=80" --set "Costs!$(cell "$job" "Costs!B=coolant pump with gasket" G)=72.35" \
  --set "Costs!$(cell "$job" "Costs!B=coolant concentrate, gal" D)=17.255" --set "Costs!$(cell "$job" "Costs!B=windscreen" D)=210" \
  --set "Hours!$(cell "$job" "Hours!A=strip the belt side, change the pump" B)=9.3"
# Of a car in pieces: what is left follows what its parts brought.
told=$("$here/recalculate.py" "$folder/job-in-pieces.xlsx" --set "Account!B5=1400" --names not_yet_recovered,still_brings)
echo "job in pieces with other recoveries: $told"
[ "$told" = '{"not_yet_recovered": 56.27, "still_brings": 310}' ]
# What is bought is no longer to be bought.
shopping=$folder/shopping.xlsx
told=$("$here/recalculate.py" "$shopping" --set "Yard!$(cell "$shopping" "Yard!B=radiator" F)=51.12" --names expected_yard,still_to_be_bought_yard,paid_yard,cash_to_take_along_yard)
echo "shopping with the radiator bought: $told"
[ "$told" = '{"expected_yard": 106.3, "still_to_be_bought_yard": 37, "paid_yard": 51.12, "cash_to_take_along_yard": 37}' ]
told=$("$here/recalculate.py" "$shopping" --set "Yard!$(cell "$shopping" "Yard!B=hub cap" A)=x" --names still_to_be_bought_yard,paid_yard,cash_to_take_along_yard)
echo "shopping with the hub caps ticked: $told"
[ "$told" = '{"still_to_be_bought_yard": 94.3, "paid_yard": 0, "cash_to_take_along_yard": 81}' ]
told=$("$here/recalculate.py" "$shopping" --set "Yard!$(cell "$shopping" "Yard!B=radiator" D)=60" --names expected_yard,cash_to_take_along_yard)
echo "shopping with the radiator at 60: $told"
[ "$told" = '{"expected_yard": 123.63, "cash_to_take_along_yard": 105}' ]
told=$("$here/recalculate.py" "$shopping" --set "Yard!$(cell "$shopping" "Yard!B=radiator" F)=51.12 of them" --names paid_yard)
echo "shopping with a price typed as text: $told"
[ "$told" = '{"paid_yard": "#ERROR"}' ]
/usr/bin/python3 "$here/what_is_read.py" "$folder"
"$here/pages.py" "$folder"/*.xlsx ${2:+--keep "$2"}
"$here/pages.py" --pages 3 "$folder/profit-short.xlsx"
# Every input of every kind changed, and every check falsified, in a program that is held open.
/usr/bin/python3 "$here/every_input.py" "$folder"/{appraisal,profit-sold,profit-owned,profit-pieces,job,job-in-pieces,shopping,year}.xlsx
/usr/bin/python3 "$here/checks_fail.py" "$folder"/{profit-sold,profit-owned,profit-pieces,year}.xlsx
# Whatever fonts a machine has, every workbook is printed within a minute, or it is named and the program ended.
for fonts in truetype/dejavu truetype/liberation truetype/crosextra; do
  "$here/pages.py" "$folder"/*.xlsx --fonts "/usr/share/fonts/$fonts"
done
