#!/bin/sh
# Install Chromium and the fonts the layout is measured with, where they are missing.
set -eu
if command -v chromium >/dev/null 2>&1 && fc-list 2>/dev/null | grep -q "Noto Sans"; then
    exit 0
fi
if ! command -v apt-get >/dev/null 2>&1; then
    echo "The browser tests need Chromium and the Noto Sans fonts: install both, then run make test again." >&2
    exit 2
fi
as_root=""
[ "$(id -u)" = 0 ] || as_root="sudo"
echo "Installing Chromium and fonts for the browser tests."
$as_root apt-get update -qq
DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends \
    chromium fonts-noto-core fontconfig poppler-utils >/dev/null
