#!/bin/sh
# Proofs a long file in the background: sends it as a job, waits until that is done, fetches the report, deletes the job.
#
#     job.sh [-r REPORT] FILE
#
# FILE holds checks as CSV or NDJSON by its suffix. What is wrong with it is printed line by line, or written to REPORT:
# JUnit XML (.xml), TAP (.tap), SARIF (.sarif). KITPROOF_URL says where the service is, KITPROOF_TOKEN shows a token to
# it, KITPROOF_WAIT says for how many seconds to wait (3600). Whoever interrupts the script cancels the job.
# Exit status: 0 every line fits, 1 a line does not, 2 wrong use, 3 no answer to rely on.
set -eu

stop() {
    echo "job.sh: $2" >&2
    exit "$1"
}

report=
while getopts r: option; do
    case $option in
    r) report=$OPTARG ;;
    *) stop 2 'usage: job.sh [-r REPORT] FILE' ;;
    esac
done
shift $((OPTIND - 1))
[ $# -eq 1 ] || stop 2 'usage: job.sh [-r REPORT] FILE'
file=$1
[ -s "$file" ] || stop 2 "$file is missing or empty"
case $file in
*.csv) type=text/csv ;;
*.ndjson) type=application/x-ndjson ;;
*) stop 2 "$file: .csv or .ndjson is read" ;;
esac
case $report in
*.xml) form=junit ;;
*.tap) form=tap ;;
*.sarif) form=sarif ;;
*) form=lines ;;
esac

service=${KITPROOF_URL:-http://127.0.0.1:8383}
job=
work=$(mktemp -d)
trap '[ -z "$job" ] || ask /dev/null --request POST "$service/v1/jobs/$job/cancel" >/dev/null || :; rm -rf "$work"' EXIT
trap 'exit 3' INT TERM HUP
[ -z "$report" ] || rm -f "$report"
if [ -n "${KITPROOF_TOKEN-}" ]; then
    printf 'header = "Authorization: Bearer %s"\n' "$KITPROOF_TOKEN" >"$work/token"
else
    : >"$work/token"
fi
named=$(printf %s "$file" | tr -c 'A-Za-z0-9._/-' _)

# Puts the body of a reply into the file named first and prints its status. No proxy, no redirect.
ask() {
    body=$1
    shift
    curl --config "$work/token" --silent --show-error --noproxy '*' --max-redirs 0 --max-time 600 \
        --output "$body" --write-out '%{http_code}' "$@"
}

# 1. Send the file as it is; the reply is the id alone.
code=$(ask "$work/reply" --header "Content-Type: $type" --header 'Expect:' --data-binary "@$file" \
    "$service/v1/jobs.txt?field=id&file=$named") || code=000
if [ "$code" != 202 ]; then
    [ ! -s "$work/reply" ] || { cat "$work/reply" && echo; } >&2
    stop 3 "$file was not taken (HTTP $code)"
fi
id=$(cat "$work/reply")
case $id in
'' | *[!0-9a-f]*) stop 3 'this is another service' ;;
esac
job=$id

# 2. Wait. A service that restarts is asked again; a job that somebody cancelled or deleted is not waited for.
left=${KITPROOF_WAIT:-3600}
while :; do
    code=$(ask "$work/reply" "$service/v1/jobs/$job.txt") || code=000
    case "$code $(cat "$work/reply" 2>/dev/null || :)" in
    '200 done') break ;;
    '200 cancelled' | 404*)
        job=
        stop 3 'the job was cancelled or deleted'
        ;;
    401* | 403*) stop 3 "the token does not do (HTTP $code)" ;;
    esac
    [ "$left" -gt 0 ] || stop 3 "$file was not done in time; the job is cancelled"
    left=$((left - 1))
    sleep 1
done

# 3. The report and the gate at once. Status, verdict and curl have to agree, or it is no proof.
status=0
code=$(ask "$work/report" --dump-header "$work/headers" \
    "$service/v1/jobs/$job/result.$form?gate=1&file=$named") || status=$?
verdict=$(tr -d '\r' 2>/dev/null <"$work/headers" | sed -n 's/^[Xx]-[Vv]erdict: //p' || :)
case "$status $code $verdict" in
'0 200 fits' | '0 409 marginal' | '0 409 ask' | '0 409 wrong' | '0 409 unread') ;;
*) stop 3 "$file was not checked (curl $status, HTTP $code)" ;;
esac

# 4. Delete the job: results take room, and count against the limit of one owner.
ask /dev/null --request DELETE "$service/v1/jobs/$job" >/dev/null || :
job=
if [ -n "$report" ]; then
    cp "$work/report" "$report"
    echo "$file: $verdict"
else
    cat "$work/report"
fi
[ "$verdict" = fits ] || exit 1
