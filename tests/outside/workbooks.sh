#!/bin/bash
# The workbooks judged by another program: recalculated, with changed inputs, printed. Plain argument: the test program.
#   tests/outside/workbooks.sh .build/plain/tests [FOLDER FOR PICTURES]
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
program=$(realpath "$1")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
NONRUNNER_WORKBOOKS=$folder "$program" "[.invented-workbooks]" >"$folder/log" || { cat "$folder/log"; exit 1; }
cell() { "$here/recalculate.py" "$1" --find "$2" | awk -v column="$3" '{sub(/^[A-Z]+/, column, $NF); print $NF}'; }

"$here/recalculate.py" "$folder"/*.xlsx
sold=$folder/profit-sold.xlsx
"$here/recalculate.py" "$sold" --equals "$folder/profit-changed.xlsx" --set sale_price=2795.25 --set shop_hour=23.45 \
  --set "Entries!$(cell "$sold" "Entries!D=radiator" I)=163.99" --set "Hours!$(cell "$sold" "Hours!B=front brakes" C)=6.75"
appraisal=$folder/appraisal.xlsx
"$here/recalculate.py" "$appraisal" --equals "$folder/appraisal-changed.xlsx" --but Risk Tests Comparables --set asking_price=1210.5 --set sound_value=3701.11 \
  --set shop_hour=23.45 --set aim_profit=430 --set "Costs!$(cell "$appraisal" "Costs!A=radiator" E)=101.4" \
  --set "Costs!$(cell "$appraisal" "Costs!A=strip the belt side, change the pump" G)=5.05"
job=$folder/job.xlsx
"$here/recalculate.py" "$job" --equals "$folder/job-changed.xlsx" --set expected_price=2999.99 --set "Job!B38=0.0725" \
  --set "Costs!$(cell "$job" "Costs!B=coolant pump with gasket" G)=72.35" --set "Hours!$(cell "$job" "Hours!A=strip the belt side, change the pump" D)=5.4"
# What is bought is no longer to be bought.
shopping=$folder/shopping.xlsx
told=$("$here/recalculate.py" "$shopping" --set "Yard!$(cell "$shopping" "Yard!C=radiator" G)=51.12" --names expected,still_to_be_bought,paid)
echo "shopping with the radiator bought: $told"
[ "$told" = '{"expected": 168.7, "still_to_be_bought": 120.7, "paid": 51.12}' ]
"$here/first_page.py" "$folder"/*.xlsx ${2:+--keep "$2"}
