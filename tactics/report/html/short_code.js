// The result of a paper as a short code; tactics/quiz/short_code.py reads it and says why it is so.
const shortCode = (() => {
  const SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  const VERSION = 1, TOLD = 5, CHECK = 4, PAGE = 6, TIMES = 4, MOST_BYTES = 31;

  const powers = [1];
  while (powers.length < 31) {
    const doubled = powers.at(-1) << 1;
    powers.push(doubled & 32 ? doubled ^ 0b100101 : doubled);
  }
  const written = (symbols) => symbols.map((symbol) => SIGNS[symbol]).join("");

  function symbolsOf(number, count) {
    const found = [];
    for (let place = count - 1; place >= 0; place--) found.push((number >>> (5 * place)) & 31);
    return found;
  }

  function crc32(text) {
    let crc = 0xffffffff;
    for (const sign of text) {
      crc ^= sign.charCodeAt(0);
      for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
    }
    return (crc ^ 0xffffffff) >>> 0;
  }

  function nicknameSymbols(nickname) {
    let signs = [...nickname.toWellFormed ? nickname.toWellFormed() : nickname];
    let bytes = new TextEncoder().encode(signs.join(""));
    while (bytes.length > MOST_BYTES) {
      signs.pop();
      bytes = new TextEncoder().encode(signs.join(""));
    }
    const found = [bytes.length];
    let held = 0, bits = 0;
    for (const byte of bytes) {
      held = (held << 8) | byte;
      bits += 8;
      while (bits >= 5) {
        bits -= 5;
        found.push((held >>> bits) & 31);
      }
      held &= (1 << bits) - 1;
    }
    if (bits) found.push((held << (5 - bits)) & 31);
    return found;
  }

  function groupCheck(number, told) {
    return told.reduce(
      (check, symbol, place) =>
        symbol ? check ^ powers[(powers.indexOf(symbol) + place + 1) % 31] : check,
      number & 31,
    );
  }

  const symbolOf = (mark) =>
    mark.picked === null ? 0 : 1 + (mark.picked * 2 + (mark.sure ? 1 : 0)) * TIMES + mark.took;

  function write({ page, paper, day, marks, nickname }) {
    const told = [
      VERSION, ...symbolsOf(page, PAGE), paper, ...symbolsOf(Math.min(Math.max(day, 0), 1023), 2),
      marks.length, ...marks.map(symbolOf), ...nicknameSymbols(nickname),
    ];
    while ((told.length + CHECK) % TOLD) told.push(0);
    told.push(...symbolsOf(crc32(written(told)), CHECK));
    const groups = [];
    for (let start = 0; start < told.length; start += TOLD) {
      const group = told.slice(start, start + TOLD);
      groups.push(written([...group, groupCheck(groups.length + 1, group)]));
    }
    return groups.join("-");
  }
  return { write };
})();
