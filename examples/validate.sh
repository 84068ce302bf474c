#!/usr/bin/env bash
# Holds what the example programs write against general-purpose validators:
# HTML pages against html-validate, JSON against the committed schemas with ajv
# (draft 2020-12). Run from the module root: bash examples/validate.sh
# Needs Go, Node and npm; fetches the two validators into a scratch directory.
# No test needs any of it.
set -euo pipefail

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
npm install --silent --no-audit --no-fund --prefix "$scratch" html-validate@10.17.0 ajv@8.20.0 >&2

go run ./examples/quote -html "$scratch/pages" >"$scratch/list"
go run ./examples/quote -json >"$scratch/reports.json"
go run ./examples/quote -cards >"$scratch/cards.json"
go run ./examples/quote -explain "trailer.tongue @ fill=out" -json >"$scratch/traces.json"
for audience in customer dealer; do
	sed "s/\"audience\": \"customer\"/\"audience\": \"$audience\"/" examples/service/request.json >"$scratch/request-$audience.json"
	go run ./examples/service <"$scratch/request-$audience.json" >"$scratch/answer-$audience.json"
done
go run ./examples/service <<<'{"format": "washrig-request/1", "spec": {"colour": 1}}' >"$scratch/answer-refused.json" 2>/dev/null || true

html=("$scratch"/pages/*.html rig/sheet/testdata/*.html)
"$scratch/node_modules/.bin/html-validate" "${html[@]}"
echo "${#html[@]} pages are valid HTML"
# the validator sees what is wrong
sed 's/<main>/<main><p><div>/' rig/sheet/testdata/dealer.html >"$scratch/bad.html"
if "$scratch/node_modules/.bin/html-validate" "$scratch/bad.html" >/dev/null 2>&1; then
	echo "a page with a paragraph left open passed"
	exit 1
fi

cat >"$scratch/check.cjs" <<'JS'
const fs = require("fs");
const Ajv = require("ajv/dist/2020");
const scratch = process.argv[2];
const read = (name) => JSON.parse(fs.readFileSync(name, "utf8"));
const ajv = new Ajv({ strict: true, allowUnionTypes: true, allErrors: true });
const schema = {};
for (const [name, file] of Object.entries({
  report: "rig/schema/report.schema.json",
  trace: "rig/schema/trace.schema.json",
  difference: "rig/schema/difference.schema.json",
  cards: "rig/schema/cards.schema.json",
  quote: "rig/quote/schema/quote.schema.json",
  customerQuote: "rig/quote/schema/customer-quote.schema.json",
  customerPage: "rig/sheet/schema/customer-page.schema.json",
  request: "examples/service/schema/request.schema.json",
  response: "examples/service/schema/response.schema.json",
})) schema[name] = ajv.compile(read(file));

let checked = 0, failed = 0;
function check(name, document, want, about) {
  checked++;
  if (schema[name](document) !== want) {
    failed++;
    console.error(`${about}: ${want ? "refused" : "passed"} by ${name}: ${ajv.errorsText(schema[name].errors)}`);
  }
}
const without = (o, key) => { const c = structuredClone(o); delete c[key]; return c; };

for (const r of read(`${scratch}/reports.json`).reports) {
  check("report", r, true, `report of rig ${r.name}`);
  check("report", without(r, "verdict"), false, "a report without a verdict");
  check("report", { ...r, verdict: "fine" }, false, "a report with a verdict of its own");
  check("report", { ...r, format: "washrig-report/2" }, false, "a report of another format");
  check("report", { ...r, readings: [{ ...r.readings[0], value: 5 }] }, false, "a reading without a unit");
}
for (const t of read(`${scratch}/traces.json`).traces) {
  check("trace", t, true, `explanation of ${t.number.path}`);
  check("trace", without(t, "number"), false, "an explanation of nothing");
}
for (const c of read(`${scratch}/cards.json`).cards) {
  check("cards", c, true, `cards of rig ${c.name}`);
  check("cards", without(c, "walk_round"), false, "cards without the walk-round");
  check("cards", { ...c, modes: [{ ...c.modes[0], start: null }] }, false, "a mode without a list of steps");
}
for (const audience of ["customer", "dealer"]) {
  check("request", read(`${scratch}/request-${audience}.json`), true, `request of a ${audience}`);
  const a = read(`${scratch}/answer-${audience}.json`);
  check("response", a, true, `answer for a ${audience}`);
  check("response", without(a, "ok"), false, "an answer that does not say whether it is one");
  if (a.customer) {
    check("customerPage", a.customer, true, "page of a customer");
    check("customerQuote", a.customer.quote, true, "quote of a customer");
    check("customerQuote", { ...a.customer.quote, total: 5 }, false, "a total without a currency");
  }
  if (a.quote) check("quote", a.quote, true, "quote of a dealer");
  if (a.report) check("report", a.report, true, "report in an answer");
}
check("response", read(`${scratch}/answer-refused.json`), true, "answer to a bad request");
check("request", { format: "washrig-request/1", spec: {}, colour: 1 }, false, "a request with a member the contract does not have");
check("request", { format: "washrig-request/1" }, false, "a request without a specification");
console.log(`${checked} documents checked, ${failed} of them wrongly judged`);
process.exit(failed ? 1 : 0);
JS
NODE_PATH="$scratch/node_modules" node "$scratch/check.cjs" "$scratch"
