/** The look of the workbench in one page without scripts: its paper, ink and three entry colours, dark where the reader wants it. */
export const STYLE = `
:root{color-scheme:light dark;--paper:#fbf9f4;--ink:#1d2327;--mute:#5c6263;--line:#ded8cb;--placement:#8a5a10;--reach:#1a6a5f;--finish:#7a3e6b;--turn:#4a5a6a}
@media (prefers-color-scheme:dark){:root{--paper:#16191b;--ink:#ece7db;--mute:#a5a69e;--line:#3a3f42;--placement:#e2a94f;--reach:#57b8a8;--finish:#cf97bf;--turn:#a3b4c3}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:15px/1.45 Inter,system-ui,sans-serif;font-variant-numeric:tabular-nums}
main,header,footer,nav{max-width:75rem;margin:0 auto;padding:0 1.25rem}
h1,h2,h3{font-family:"Source Serif 4",Georgia,serif;line-height:1.25;overflow-wrap:anywhere}
h1{font-size:1.8rem;margin:1.5rem 0 .25rem}h2{font-size:1.3rem;margin:2.2rem 0 .4rem;border-top:2px solid var(--ink);padding-top:.6rem}h3{font-size:1.05rem;margin:1.2rem 0 .3rem}
p,li{max-width:72ch;margin:.3rem 0}a{color:inherit}
nav ul{display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;list-style:none;padding:0}
.mute{color:var(--mute)}
.scroll{overflow-x:auto;margin:.6rem 0}
table{border-collapse:collapse;font-size:14px}
caption{text-align:left;font-weight:600;padding:.2rem 0}
th,td{padding:.22rem .6rem;border-bottom:1px solid var(--line);vertical-align:baseline;white-space:nowrap}
thead th{border-bottom:1px solid var(--ink);vertical-align:bottom}
tbody th{font-weight:600}
.text{text-align:left;white-space:normal;overflow-wrap:break-word;min-width:7.5em;max-width:16em}.number{text-align:right}
.placement{color:var(--placement)}.reach{color:var(--reach)}.finish{color:var(--finish)}.turn{color:var(--turn)}
.axis{display:block;font-weight:400;color:var(--mute)}
svg.range{vertical-align:middle;fill:currentColor}svg.range .bar{stroke:currentColor;stroke-width:2}svg.range .zero{stroke:var(--mute);stroke-width:1;stroke-dasharray:2 2}
dt{font-weight:600}dd{margin:0 0 .4rem;max-width:72ch}
.warn{border-left:4px solid var(--placement);padding-left:.7rem}
:focus-visible{outline:2px solid var(--reach);outline-offset:2px}
@page{size:A4 landscape;margin:12mm}
@media print{:root{--paper:#fff;--ink:#000;--mute:#444;--line:#bbb}body{font-size:10pt}table{font-size:8pt}th,td{padding:.15rem .35rem}.scroll{overflow:visible}nav{display:none}h2{break-after:avoid}#defenders{break-before:page}h3,caption{break-after:avoid}tr{break-inside:avoid}thead{display:table-header-group}}
`;
