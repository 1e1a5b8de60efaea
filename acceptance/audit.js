// What a ruler finds on the page as it stands: targets, gaps, sizes of text,
// what runs off the side. Gives [{check, what}].
(() => {
  const faults = []
  const fault = (check, what) => faults.push({ check, what })
  const name = e => {
    const words = (e.getAttribute('aria-label') || e.innerText || e.value || e.id || '').trim().replace(/\s+/g, ' ').slice(0, 40)
    const where = e.closest('[class]')
    return `<${e.localName}${where ? ' in .' + String(where.className.baseVal ?? where.className).split(' ')[0] : ''}> “${words}”`
  }
  const root = document.documentElement
  const seen = e => {
    const r = e.getBoundingClientRect(), s = getComputedStyle(e)
    return r.width > 0 && r.height > 0 && s.visibility !== 'hidden' && !e.closest('.out') && e.checkVisibility({ contentVisibilityAuto: true })
  }

  // Check 2. A tick or a file field is as large as the label it stands in.
  const held = 'a[href],button,input:not([type=hidden]),select,textarea,summary,[tabindex="0"]:not(.scroll),[role=button]'
  const boxes = []
  for (const e of document.querySelectorAll(held)) {
    if (!seen(e)) continue
    const label = (e.type === 'checkbox' || e.type === 'radio') && e.closest('label')
    const r = (label || e).getBoundingClientRect()
    const bar = e.closest('.bar,.thumb'), main = e.matches('.main')
    boxes.push({ e, r, floats: !!e.closest('.bar,.orderform,[data-floats]') })
    const high = main ? 76 : bar ? 64 : 44, wide = main ? 100 : 44
    if (r.height < high - 0.5 || r.width < wide - 0.5)
      fault(2, `${name(e)} is ${r.width.toFixed(0)} × ${r.height.toFixed(0)}, want ${wide} × ${high}`)
  }
  boxes.sort((a, b) => a.r.top - b.r.top)
  for (let i = 0; i < boxes.length; i++) {
    for (let j = i + 1; j < boxes.length && boxes[j].r.top < boxes[i].r.bottom + 8; j++) {
      const a = boxes[i], b = boxes[j]
      if (a.floats !== b.floats || a.e.contains(b.e) || b.e.contains(a.e)) continue
      const dx = Math.max(a.r.left, b.r.left) - Math.min(a.r.right, b.r.right)
      const dy = Math.max(a.r.top, b.r.top) - Math.min(a.r.bottom, b.r.bottom)
      if (Math.max(dx, dy) < 7.5) fault(2, `${name(a.e)} and ${name(b.e)} are ${Math.max(dx, dy).toFixed(0)} apart, want 8`)
    }
  }

  // Check 3. Nothing runs off the side but what may be scrolled, and no words
  // are cut off.
  if (root.scrollWidth > innerWidth) {
    let worst = null
    for (const e of document.body.querySelectorAll('*')) {
      if (e.closest('.scroll') && !e.matches('.scroll')) continue
      const r = e.getBoundingClientRect()
      if (r.right > innerWidth + 0.5 && (!worst || r.right > worst.r.right + 0.5)) worst = { e, r }
    }
    fault(3, `the page is ${root.scrollWidth} wide in ${innerWidth}` + (worst ? `; ${name(worst.e)} reaches ${worst.r.right.toFixed(0)}` : ''))
  }
  for (const e of document.body.querySelectorAll('*')) {
    if (!(e instanceof HTMLElement) || !e.innerText || !seen(e) || e.matches('.scroll,textarea,select,input')) continue
    const s = getComputedStyle(e)
    if (s.overflowX === 'visible' && s.overflowY === 'visible') continue
    if (e.scrollWidth > e.clientWidth + 1 || (s.overflowY !== 'visible' && e.scrollHeight > e.clientHeight + 1)) fault(3, `${name(e)} cuts its words off`)
  }

  // Check 4. Letters of a drawing count as they come out on screen.
  const sizes = new Map()
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  for (let n = texts.nextNode(); n; n = texts.nextNode()) {
    const e = n.parentElement
    if (!n.data.trim() || e.closest('.out,script') || sizes.has(e)) continue
    let px = parseFloat(getComputedStyle(e).fontSize)
    if (e instanceof SVGElement && e.getScreenCTM) {
      const m = e.getScreenCTM()
      px *= m ? Math.sqrt(Math.abs(m.a * m.d - m.b * m.c)) : 1
    }
    sizes.set(e, px)
    if (px < 15.99 && seen(e)) fault(4, `${name(e)} “${n.data.trim().slice(0, 30)}” is ${px.toFixed(1)} px`)
  }
  const reading = document.getElementById('reading')
  if (reading && parseFloat(getComputedStyle(reading).fontSize) < 56) fault(4, `the reading is ${getComputedStyle(reading).fontSize}, want 56 px`)
  return faults
})()
