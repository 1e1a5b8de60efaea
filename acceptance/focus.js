// Gives the focus to everything that takes it, and says where its outline is
// under 3 px wide or under 3 to 1 against what lies behind it. An item of a
// drawing may show the focus by a line of the drawing instead.
(() => {
  const wrong = []
  const parts = c => (c.match(/[\d.]+/g) || []).map(Number)
  const light = c => {
    const [r, g, b] = parts(c).map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b
  }
  const ratio = (a, b) => { const [x, y] = [light(a), light(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05) }
  const behind = e => {
    for (; e; e = e.parentElement) {
      const c = getComputedStyle(e).backgroundColor, p = parts(c)
      if (p.length < 4 || p[3] > 0) return c
    }
    return 'rgb(255,255,255)'
  }
  const lines = e => [...e.querySelectorAll('*')].map(x => {
    const s = getComputedStyle(x)
    return { key: s.stroke + s.strokeWidth, width: parseFloat(s.strokeWidth), colour: s.stroke }
  })
  let seen = 0
  for (const e of document.querySelectorAll('a[href],button,input:not([type=hidden]),select,textarea,summary,[tabindex="0"]')) {
    if (!e.checkVisibility() || e.disabled || e.closest('.out')) continue
    const drawn = e instanceof SVGElement, before = drawn && lines(e)
    e.focus({ focusVisible: true, preventScroll: true })
    if (document.activeElement !== e) continue
    seen++
    if (drawn && getComputedStyle(e).outlineStyle === 'none') {
      const m = e.getScreenCTM(), scale = Math.sqrt(Math.abs(m.a * m.d - m.b * m.c)), ground = behind(e.closest('svg'))
      const shown = lines(e).filter((l, i) => l.key !== before[i].key && l.width * scale >= 3 && l.colour !== 'none' && ratio(l.colour, ground) >= 3)
      if (shown.length === 0) wrong.push(`an item of the drawing, “${e.getAttribute('aria-label') || e.textContent.trim()}”, shows no focus`)
      continue
    }
    const s = getComputedStyle(e), who = `<${e.localName}> “${(e.innerText || e.id || '').trim().slice(0, 30)}”`
    if (s.outlineStyle === 'none' || parseFloat(s.outlineWidth) < 3) wrong.push(`${who}: outline ${s.outlineWidth} ${s.outlineStyle}`)
    else {
      const r = ratio(s.outlineColor, behind(parseFloat(s.outlineOffset) < 0 ? e : e.parentElement))
      if (r < 3) wrong.push(`${who}: outline has ${r.toFixed(1)} to 1`)
    }
  }
  document.activeElement.blur()
  return { seen, wrong }
})()
