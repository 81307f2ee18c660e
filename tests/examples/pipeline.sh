#!/bin/sh
# A step of a pipeline: a terminal emulator that knows nothing of termprobe stands behind a pty as the board, termprobe
# looks at its screen, and the exit code decides: 0 all passed, 1 something failed, all else is trouble.
#
# usage: pipeline.sh OUT [words of `termprobe run`]
# OUT gets the run file, its report page, and junit.xml for whatever shows the results of the pipeline.
# Another emulator: EMULATOR is a command with the board's bytes on standard input and output, which gives its screen as
# rows of text to whoever connects to the socket $SCREEN. Another profile, script or termprobe: PROFILE, SCRIPT, TERMPROBE.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
out=${1:?must be a folder for the results}
shift
mkdir -p "$out"
folder=$(mktemp -d)
PORT=$folder/port SCREEN=$folder/screen
export SCREEN
: "${EMULATOR:=node $here/../emulators/headless.js $SCREEN 24 80}"
: "${PROFILE:=ecma48-24x80}" "${SCRIPT:=quick}" "${TERMPROBE:=termprobe}"

socat PTY,link="$PORT",raw,echo=0 EXEC:"$EMULATOR" &
emulator=$!
trap 'kill "$emulator" 2>/dev/null || :; rm -rf "$folder"' EXIT

tries=0
until [ -e "$PORT" ] && [ -S "$SCREEN" ]; do
  tries=$((tries + 1))
  if [ "$tries" -gt 200 ] || ! kill -0 "$emulator" 2>/dev/null; then
    echo "pipeline.sh: the emulator must open $SCREEN within 10 s, and has not: $EMULATOR" >&2
    exit 3
  fi
  sleep 0.05
done

$TERMPROBE run --profile "$PROFILE" --script "$SCRIPT" --board emulator \
  --port "$PORT" --speed 115200 --dump "socat -u UNIX-CONNECT:$SCREEN STDOUT" \
  --out "$out" --junit "$out/junit.xml" "$@"
