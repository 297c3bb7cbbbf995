#!/bin/sh
# Proofs an order, and only if every line of it fits runs the command that sends it.
#
#     order.sh [-w] [-r REPORT] ORDER [COMMAND [ARGUMENT...]]
#
# ORDER holds checks as CSV, JSON or NDJSON by its suffix, or with -w a whole order with its needs as JSON. What is wrong with it is printed line by line, or written to REPORT: JUnit
# XML (.xml), TAP (.tap), SARIF (.sarif). KITPROOF_URL says where the service is, KITPROOF_TOKEN shows a token to it.
# Exit status: 0 every line fits (then that of COMMAND), 1 a line does not fit, 2 wrong use, 3 no answer to rely on.
set -eu

wrong_use() {
    echo "order.sh: $1" >&2
    exit 2
}

report=
path=verdicts
while getopts r:w option; do
    case $option in
    r) report=$OPTARG ;;
    w) path=orders/check ;;
    *) wrong_use 'usage: order.sh [-w] [-r REPORT] ORDER [COMMAND [ARGUMENT...]]' ;;
    esac
done
shift $((OPTIND - 1))
[ $# -ge 1 ] || wrong_use 'which order?'
order=$1
shift
[ -s "$order" ] || wrong_use "$order is missing or empty"
case $order in
*.csv) type=text/csv ;;
*.json) type=application/json ;;
*.ndjson) type=application/x-ndjson ;;
*) wrong_use "$order: .csv, .json or .ndjson is read" ;;
esac
case $report in
*.xml) form=junit ;;
*.tap) form=tap ;;
*.sarif) form=sarif ;;
*) form=lines ;;
esac

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
# The report of an earlier run must not be taken for that of this one.
[ -z "$report" ] || rm -f "$report"
if [ -n "${KITPROOF_TOKEN-}" ]; then
    printf 'header = "Authorization: Bearer %s"\n' "$KITPROOF_TOKEN" >"$work/token"
else
    : >"$work/token"
fi
named=$(printf %s "$order" | tr -c 'A-Za-z0-9._/-' _)

# No proxy, no redirect, and the file as it is: --data would take the ends of its lines away.
status=0
code=$(curl --config "$work/token" --silent --show-error --noproxy '*' --max-redirs 0 --max-time 300 \
    --header "Content-Type: $type" --header 'Expect:' --data-binary "@$order" \
    --dump-header "$work/headers" --output "$work/report" --write-out '%{http_code}' \
    "${KITPROOF_URL:-http://127.0.0.1:8383}/v1/$path.$form?gate=1&file=$named") || status=$?
verdict=$(tr -d '\r' 2>/dev/null <"$work/headers" | sed -n 's/^[Xx]-[Vv]erdict: //p' || :)

# All three, or it is no proof.
case "$status $code $verdict" in
'0 200 fits' | '0 409 marginal' | '0 409 ask' | '0 409 wrong' | '0 409 unread') ;;
*)
    [ ! -s "$work/report" ] || cat "$work/report" >&2
    echo "order.sh: $order was not checked (curl $status, HTTP $code)" >&2
    exit 3
    ;;
esac
if [ -n "$report" ]; then
    cp "$work/report" "$report"
    echo "$order: $verdict"
else
    cat "$work/report"
fi
[ "$verdict" = fits ] || exit 1
[ $# -eq 0 ] || "$@"
