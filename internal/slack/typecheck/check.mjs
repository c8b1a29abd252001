// Type-checks a sample of what crosslay shows on Slack: node check.mjs SAMPLE.json
// The sample holds messages ({kind, text, blocks}), views, scopes and events, and
// may hold the manifest. It becomes a TypeScript file of annotated literals, so
// that the compiler judges every field, missing ones and superfluous ones alike.
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));

function literal(name, type, value) {
  return `export const ${name}: ${type} = ${JSON.stringify(value, null, 1)};\n`;
}

function source(sample) {
  const parts = ['import type { EventName, Manifest, Message, Modal, Scope } from "./shapes.js";\n'];
  sample.messages.forEach((m, i) => parts.push(`// ${m.kind}\n`, literal(`message${i}`, "Message", m)));
  sample.views.forEach((v, i) => parts.push(literal(`view${i}`, "Modal", v)));
  parts.push(literal("scopes", "Scope[]", sample.scopes), literal("events", "EventName[]", sample.events));
  if (sample.manifest) parts.push(literal("manifest", "Manifest", sample.manifest));
  return parts.join("");
}

// An empty sample would pass without having been looked at.
function complete(sample) {
  for (const part of ["messages", "views", "scopes", "events"]) {
    if (!Array.isArray(sample[part]) || sample[part].length === 0) fail(`the sample has no ${part}`);
  }
}

function fail(why) {
  console.error(why);
  process.exit(1);
}

const sample = JSON.parse(readFileSync(process.argv[2], "utf8"));
complete(sample);
const file = join(here, "sample.ts");
writeFileSync(file, source(sample));
const tsc = spawnSync(process.execPath, [join(here, "node_modules/typescript/bin/tsc"), "-p", here], { encoding: "utf8" });
process.stdout.write(tsc.stdout ?? "");
process.stderr.write(tsc.stderr ?? "");
if (tsc.status !== 0) {
  fail(`the sample does not fit Slack's types; see ${file}`);
}
rmSync(file);
const kinds = new Set(sample.messages.map((m) => m.kind));
console.log(
  `fits Slack's types: ${sample.messages.length} messages of ${kinds.size} kinds, ${sample.views.length} views, ` +
    `${sample.scopes.length} scopes, ${sample.events.length} events${sample.manifest ? ", the manifest" : ""}`,
);
