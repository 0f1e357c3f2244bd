import type { Picture } from "./camera.ts";

const escaped = (text: string) =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");

function figure({ size, light, file }: Picture): string {
  const words = `${size}, ${light}`;
  return `<figure data-size="${size}"><a href="${file}"><img src="${file}" alt="${words}" loading="lazy"></a><figcaption>${words}</figcaption></figure>`;
}

/** Groups keep the order of their first pictures. */
function grouped(pictures: readonly Picture[], by: (p: Picture) => string): [string, Picture[]][] {
  const groups = new Map<string, Picture[]>();
  for (const p of pictures) groups.set(by(p), [...(groups.get(by(p)) ?? []), p]);
  return [...groups];
}

/** Returns one page with every picture: a heading for each moment and a row for each screen. */
export function galleryPage(pictures: readonly Picture[], takenAt: string): string {
  const scenes = grouped(pictures, (p) => p.scene);
  const body = scenes.map(([scene, taken]) => {
    const rows = grouped(taken, (p) => p.who).map(
      ([who, row]) => `<h3>${escaped(who)}</h3><div class="row">${row.map(figure).join("")}</div>`,
    );
    return `<section><h2>${escaped(scene)}</h2>${rows.join("")}</section>`;
  });
  return `<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Chockside: every screen</title>
<style>
body { margin: 2rem; font: 16px/1.4 sans-serif; background: #8a8d8f; color: #000; }
h2 { margin: 3rem 0 0; border-bottom: 2px solid; }
.row { display: flex; gap: 1rem; overflow-x: auto; align-items: start; padding-bottom: 1rem; }
figure { margin: 0; flex: none; }
img { display: block; height: 30rem; width: auto; }
[data-size="phone"] img { height: 30rem; }
</style>
<h1>Chockside: every screen</h1>
<p>${pictures.length} pictures of ${scenes.length} moments, taken ${escaped(takenAt)} from a running server.</p>
${body.join("\n")}
</html>
`;
}
