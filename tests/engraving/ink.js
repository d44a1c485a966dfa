// Ink of engraved systems, read as Chromium draws it. For every svg of the page: its shapes, each with the
// class of the group it belongs to, and boxes [left, top, right, foot] in the svg's own units.
() => {
  const STEP = 60, pen = document.createElement('canvas').getContext('2d');
  const OWNERS = ['sign', 'slot', 'note', 'harm', 'reh', 'fing', 'slur', 'tie', 'gliss', 'artic', 'tuplet',
    'tupletNum', 'tupletBracket', 'trill', 'fermata', 'arpeg', 'mNum', 'voltaBracket', 'beam', 'stem', 'flag',
    'accid', 'dots', 'rest', 'mRest', 'barLine', 'clef', 'keySig', 'meterSig', 'ledgerLines', 'grpSym', 'staff',
    'tempo', 'dir', 'bracketSpan', 'bTrem'];
  const GROUND = ['staff', 'barLine', 'ledgerLines', 'grpSym', 'other'];  // what signs are drawn over
  function owner(element) {
    for (let at = element; at && at.localName !== 'svg'; at = at.parentElement) {
      const words = (at.getAttribute('class') || '').split(' ');
      const found = OWNERS.find(name => words.includes(name));
      if (found) return [at, found, words];
    }
    return [element, 'other', []];
  }
  function visible(element) {
    return getComputedStyle(element).visibility !== 'hidden' && getComputedStyle(element).display !== 'none';
  }
  function letters(text) {
    const boxes = [];
    let number = 0;
    const walk = document.createTreeWalker(text, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const style = getComputedStyle(walk.currentNode.parentElement);
      pen.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      for (const letter of walk.currentNode.data) {
        if (number >= text.getNumberOfChars()) break;
        if (letter.trim()) {
          const at = text.getStartPositionOfChar(number), ink = pen.measureText(letter);
          boxes.push([at.x - ink.actualBoundingBoxLeft, at.y - ink.actualBoundingBoxAscent,
            at.x + ink.actualBoundingBoxRight, at.y + ink.actualBoundingBoxDescent]);
        }
        number += letter.length;
      }
    }
    return boxes;
  }
  function outline(path) {
    const length = path.getTotalLength(), half = (parseFloat(path.getAttribute('stroke-width')) || 0) / 2;
    const boxes = [];
    const count = Math.max(1, Math.ceil(length / STEP));
    let before = null;
    for (let k = 0; k <= count; k++) {
      const at = path.getPointAtLength(length * k / count);
      if (before && Math.hypot(at.x - before.x, at.y - before.y) < 3 * STEP)
        boxes.push([Math.min(at.x, before.x) - half, Math.min(at.y, before.y) - half,
          Math.max(at.x, before.x) + half, Math.max(at.y, before.y) + half]);
      before = at;
    }
    return boxes;
  }
  function slices(polygon) {  // of a beam: a leaning bar cut upright
    const corners = [...polygon.points], xs = corners.map(at => at.x);
    const left = Math.min(...xs), right = Math.max(...xs), count = Math.max(1, Math.ceil((right - left) / STEP));
    const ys = corners.map(at => at.y), boxes = [];
    const height = x => corners.map((at, k) => [at, corners[(k + 1) % corners.length]])
      .filter(([a, b]) => a.x !== b.x && (a.x - x) * (b.x - x) <= 0)
      .map(([a, b]) => a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x));
    for (let k = 0; k < count; k++) {
      const from = left + (right - left) * k / count, to = left + (right - left) * (k + 1) / count;
      const found = height((from + to) / 2);
      boxes.push([from, Math.min(...found, Math.max(...ys)), to, Math.max(...found, Math.min(...ys))]);
    }
    return boxes;
  }
  function rectangle(element) {
    const box = element.getBBox();
    return [[box.x, box.y, box.x + box.width, box.y + box.height]];
  }
  const READ = {text: letters, path: outline, polygon: slices};
  return [...document.querySelectorAll('svg[data-system]')].map(svg => {
    const shapes = new Map();
    for (const element of svg.querySelectorAll('text, path, use, polygon, rect, ellipse, line')) {
      const [group, kind, words] = owner(element);
      if (GROUND.includes(kind) || !visible(element)) continue;
      const boxes = (READ[element.localName] || rectangle)(element);
      if (!boxes.length) continue;
      if (!shapes.has(group)) shapes.set(group, {kind, words: words.join(' '), id: group.id, text: '', boxes: []});
      const shape = shapes.get(group);
      shape.boxes.push(...boxes);
      if (element.localName === 'text') shape.text += element.textContent.trim();
    }
    const view = svg.viewBox.baseVal;
    return {name: svg.dataset.system, view: [view.x, view.y, view.x + view.width, view.y + view.height],
      shapes: [...shapes.values()]};
  });
}
