# Build the handbook with the maintained fork of MkDocs 1.x and compare every file of the two sites.
# Run by `make fork`; it needs a network or a mirror, so no test of the suite does it.
set -eu
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
"${PYTHON:-python3}" -m venv "$place/venv"
"$place/venv/bin/python" -m pip install --quiet --disable-pip-version-check \
    --constraint constraints.txt --editable . properdocs
"$place/venv/bin/mkdocs" build --quiet --site-dir "$place/one"
"$place/venv/bin/properdocs" build --quiet --config-file mkdocs.yml --site-dir "$place/two"
diff --recursive --brief "$place/one" "$place/two"
echo "$(find "$place/two" -type f | wc -l) files, the same bytes from both."
