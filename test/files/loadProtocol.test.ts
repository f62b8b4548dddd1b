import { join } from "node:path";
import { expect, test } from "vitest";
import { loadProtocol } from "../../src/files/loadProtocol.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { tempFolder } from "./tempFolder.ts";

test("a built-in one by name, a file of the same name by its path", () => {
  const cwd = tempFolder({ csa: JSON.stringify({ ...protocols.csa, name: "mine" }) });
  expect(loadProtocol("csa", { cwd })).toEqual(protocols.csa);
  expect(loadProtocol("./csa", { cwd }).name).toBe("mine");
  expect(loadProtocol(join(cwd, "csa")).name).toBe("mine");
});

test("names that every object has are no protocols", () => {
  expect(() => loadProtocol("constructor")).toThrow("constructor: There is no such protocol");
  expect(() => loadProtocol("__proto__")).toThrow("__proto__: There is no such protocol");
});

test.for([
  ["[]", "p.json: must be a JSON object, not []"],
  ["null", "p.json: must be a JSON object, not null"],
  [
    '{"schema": "tg-hydrates/protocol/1",',
    'p.json, line 1, column 37: This is no JSON. The name of a field is missing here, in "double quotes".',
  ],
  [
    "\u0089PNG",
    "p.json, line 1, column 1: This is no JSON. This is no value: a number, true, false, null or a text in quotes.",
  ],
] as const)("%s", ([text, message]) => {
  const cwd = tempFolder({ "p.json": text });
  expect(() => loadProtocol("p.json", { cwd })).toThrow(expect.objectContaining({ message }));
});

test("a hostile document does not reach the prototype of objects", () => {
  const text = JSON.stringify(protocols.csa).replace("{", '{"__proto__": {"polluted": true},');
  const cwd = tempFolder({ "p.json": text });
  expect(() => loadProtocol("p.json", { cwd })).toThrow("p.json: __proto__ is not a field of a protocol");
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
});
