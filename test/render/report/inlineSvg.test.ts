import { expect, test } from "vitest";
import { inlineSvg } from "../../../src/render/report/inlineSvg.ts";

test("ids and what refers to them get the prefix, text does not", () => {
  const svg =
    '<?xml version="1.0"?>\n<svg width="9"><defs><clipPath id="a"><rect/></clipPath></defs><g clip-path="url(#a)" fill=\'url("#b")\'><use href="#a" xlink:href="#a"/><text>id="a" url(#a) &lt;g></text></g></svg>\n';
  expect(inlineSvg(svg, "f1-")!.markup).toBe(
    '<svg aria-hidden="true" focusable="false" width="9"><defs><clipPath id="f1-a"><rect/></clipPath></defs><g clip-path="url(#f1-a)" fill=\'url("#f1-b")\'><use href="#f1-a" xlink:href="#f1-a"/><text>id="a" url(#a) &lt;g></text></g></svg>',
  );
});

test("a hidden drawing has no roles and names of its own", () => {
  const svg =
    '<svg role="img" aria-label="x"><g role="graphics-object" aria-roledescription="mark" tabindex="0"><path/></g></svg>';
  expect(inlineSvg(svg, "p")!.markup).toBe('<svg aria-hidden="true" focusable="false"><g><path/></g></svg>');
});

test("marks that turn the direction of writing are shown", () => {
  expect(inlineSvg("<svg><text>a\u202Eb</text></svg>", "p")!.markup).toContain("<text>a\\u{202e}b</text>");
});

test.for([
  ["a script", "<svg><script>alert(1)</script></svg>"],
  ["a handler", '<svg><path onclick="x()"/></svg>'],
  ["a handler in capitals", '<svg><path ONLOAD="x()"/></svg>'],
  ["a handler without a blank before it", '<svg><path d="M0 0"onclick="x()"/></svg>'],
  ["a handler after a slash", '<svg><path/onclick="x()"/></svg>'],
  ["foreign markup", "<svg><foreignObject><p>x</p></foreignObject></svg>"],
  ["a picture from elsewhere", '<svg><image href="https://example.org/a.png"/></svg>'],
  ["a link to elsewhere", '<svg><use href="https://example.org/a.svg#x"/></svg>'],
  ["a fill from elsewhere", '<svg><path fill="url(https://example.org/#a)"/></svg>'],
  ["a style sheet", "<svg><style>p{color:red}</style></svg>"],
  ["a comment", "<svg><!-- x --></svg>"],
  ["an animation", '<svg><path><set attributeName="href"/></path></svg>'],
  ["a tag cut short", "<svg><path d='</svg>"],
  ["an element that stays open", "<svg><g></svg>"],
  ["what closes more than it opens", "<svg></g></svg></svg>"],
  ["two drawings", "<svg></svg><p>x</p><svg></svg>"],
  ["no drawing", "nothing"],
])("a drawing with %s is not taken", ([, svg]) => {
  expect(inlineSvg(svg!, "p")).toBeNull();
});
