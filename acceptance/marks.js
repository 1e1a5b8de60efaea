// Verdict marks and lines of state without their word. A mark is known by how
// it is cut: the word must stand in the same tag, row or entry, where a screen
// reader meets it. Gives what is wrong.
(() => {
  const wrong = []
  const verdictOf = svg => {
    if (svg.querySelector('[stroke-dasharray]')) return 'not judged'
    if (svg.querySelector('[fill=currentColor]')) return 'renew'
    return svg.querySelector('path').getAttribute('d').includes('H47L69') ? 'make good' : 'goes back'
  }
  const words = e => (e.getAttribute('aria-label') || '') + ' ' + e.innerText
  let marks = 0
  for (const svg of document.querySelectorAll('svg.mark[viewBox="0 0 72 36"]')) {
    if (!svg.checkVisibility()) continue
    marks++
    const near = svg.closest('.tag,a,li,tr,dt,dd'), want = verdictOf(svg)
    if (!near || !words(near).toLowerCase().includes(want)) wrong.push(`a mark cut as “${want}” stands by “${near ? words(near).trim().slice(0, 60) : 'nothing'}”`)
    if (svg.getAttribute('aria-hidden') !== 'true' && !svg.getAttribute('aria-label')) wrong.push('a mark is neither hidden from a screen reader nor named')
  }
  const states = /strip|off|tray|in place|judged|held|away|at the|built|clean/ // a part in a tray says whether it is clean
  for (const svg of document.querySelectorAll('svg.line')) {
    if (!svg.checkVisibility()) continue
    marks++
    const near = svg.closest('a,li,.card,tr')
    if (!near || !states.test(words(near))) wrong.push(`a line of state stands by “${near ? words(near).trim().slice(0, 60) : 'nothing'}”`)
  }
  for (const e of document.querySelectorAll('.held')) {
    if (e.checkVisibility() && !/held|do not|hold|close|not yet/i.test(words(e) + ' ' + (e.closest('section')?.innerText.slice(0, 40) || ''))) wrong.push(`hatch without its word: “${words(e).slice(0, 60)}”`)
  }
  return { marks, wrong }
})()
