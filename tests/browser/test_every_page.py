"""Every page at phone and desk size: no complaint, nothing wider than the screen, targets to hit, contrast to read."""

from __future__ import annotations

import pytest

pytestmark = pytest.mark.browser
PAGES = ["/job/withy/" + path for path in (
    "", "findings", "doubtful", "bench", "bench/cylinders?block=0", "remedies", "orders", "plan", "parts", "record?check=1",
    "parts/note?system=cylinders", "tags",
    "refused", "outline", "bring-in",
)] + ["/who", "/patterns", "/pair"]  # fmt: skip

# Buttons, fields and stand-alone links: at least 44 px high (WCAG 2.2, 2.5.5 asks 44 x 44 for these; links inside a sentence
# are excepted there, and so are the parts of the drawing, which the list beside it repeats).
SMALL = """() => [...document.querySelectorAll(`button, select, textarea, summary,
  input:not([type=hidden]):not([type=checkbox]):not([type=radio]), a.button, .places a, .sheet-list a, .levels a, .jump a`)]
  .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 43.5 )
  .map(e => e.outerHTML.slice(0, 90) + ' ' + e.getBoundingClientRect().height)"""

# Contrast by the formula of WCAG 2.2 (relative luminance), text against the nearest opaque ground.
PALE = """() => {
  const parse = c => { const m = c.match(/[\\d.]+/g).map(Number); return {r: m[0], g: m[1], b: m[2], a: m[3] ?? 1}; };
  const line = v => v <= 10.0164 ? v / 255 / 12.92 : ((v / 255 + .055) / 1.055) ** 2.4;
  const lum = c => .2126 * line(c.r) + .7152 * line(c.g) + .0722 * line(c.b);
  const ground = e => {
    for (; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor); if (c.a === 1) return c; }
    return {r: 255, g: 255, b: 255};
  };
  const out = [];
  for (const e of document.querySelectorAll('main *, header *')) {
    const written = [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
    if (!written || !e.checkVisibility() || e.closest('[disabled]')) continue;
    const style = getComputedStyle(e), svg = e.closest('svg'), fore = parse(svg ? style.fill : style.color);
    if (svg && style.fill === 'none') continue;
    const [a, b] = [lum(fore), lum(ground(svg ? svg.parentElement : e))].sort((x, y) => y - x);
    const ratio = (a + .05) / (b + .05), large = parseFloat(style.fontSize) >= 24;
    if (ratio < (large ? 3 : 4.5)) out.push(e.textContent.trim().slice(0, 40) + ' ' + ratio.toFixed(2));
  }
  return out;
}"""

# Names for a screen reader, one h1, ids once, headings in steps, a language.
UNNAMED = """() => {
  const out = [];
  const told = e => e.textContent.trim() || e.getAttribute('aria-label') || e.querySelector('img[alt]');
  for (const e of document.querySelectorAll('input:not([type=hidden]), select, textarea'))
    if (!e.labels?.length && !e.getAttribute('aria-label')) out.push('no label: ' + e.name);
  for (const e of document.querySelectorAll('button, a[href]'))
    if (!e.closest('svg') && !told(e)) out.push('no name: ' + e.outerHTML.slice(0, 80));
  for (const e of document.querySelectorAll('svg'))
    if (!e.parentElement.closest('svg') && !e.getAttribute('aria-label')) out.push('picture without words');
  for (const e of document.querySelectorAll('img')) if (!e.hasAttribute('alt')) out.push('photo without words');
  const ids = [...document.querySelectorAll('[id]')].filter(e => e.checkVisibility()).map(e => e.id);
  for (const id of new Set(ids)) if (ids.filter(x => x === id).length > 1) out.push('id twice: ' + id);
  if (document.querySelectorAll('h1').length !== 1) out.push('h1: ' + document.querySelectorAll('h1').length);
  let last = 1;
  for (const h of document.querySelectorAll('main h1, main h2, main h3, main h4')) {
    const n = +h.tagName[1];
    if (n > last + 1) out.push('heading skips: ' + h.textContent.slice(0, 40));
    last = n;
  }
  if (!document.documentElement.lang) out.push('no language');
  return out;
}"""


@pytest.mark.parametrize("path", PAGES)
def test_page(page, site, path):
    page.goto(site + path)
    wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    assert wide <= 0, f"{wide} px wider than the screen"
    assert page.evaluate(SMALL) == []
    assert page.evaluate(PALE) == []
    assert page.evaluate(UNNAMED) == []


def test_text_in_the_drawing_is_never_cut_or_covered(page, site):
    page.goto(site + "/patterns")
    overlaps = page.evaluate(
        """() => {
      const out = [];
      for (const svg of document.querySelectorAll('.section-figure svg')) {
        if (!svg.checkVisibility()) continue;
        const whole = svg.getBoundingClientRect();
        const boxes = [...svg.querySelectorAll('text')].map(t => [t.textContent, t.getBoundingClientRect()]);
      const w = whole, cut = b => b.left < w.left - 1 || b.right > w.right + 1 || b.top < w.top - 1 || b.bottom > w.bottom + 1;
        for (const [text, b] of boxes) if (cut(b)) out.push('cut: ' + text);
        for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
          const [a, b] = [boxes[i][1], boxes[j][1]];
          const x = Math.min(a.right, b.right) - Math.max(a.left, b.left);
          const y = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
          if (x > 1 && y > 4) out.push(boxes[i][0] + ' / ' + boxes[j][0]);
        }
      }
      return out;
    }"""
    )
    assert overlaps == []
