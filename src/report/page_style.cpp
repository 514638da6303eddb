// How a report looks: one style sheet for phone, desk, dark screens and paper.
#include "report/page_style.hpp"

#include <fmt/format.h>

#include "report/palette.hpp"

namespace houseleek::report {
namespace {

constexpr std::string_view text_rules = R"css(
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:1.0625rem/1.6 Charter,"Bitstream Charter","Iowan Old Style",
Cambria,"Liberation Serif",Georgia,serif}
main{max-width:53rem;margin:0 auto;padding:3.5rem 1.25rem 5rem}
h1,h2,h3,figcaption strong,th,.kind,.key,.unit,.tick,.name,.value,.heading,.legend,.not-yet,summary,.marked,
caption,nav{font-family:system-ui,-apple-system,"Segoe UI","Liberation Sans",Roboto,"DejaVu Sans",sans-serif}
h1{font-size:clamp(2rem,6vw,2.9rem);line-height:1.1;letter-spacing:-.02em;margin:.3rem 0 1rem;font-weight:650;
overflow-wrap:anywhere}
h2{font-size:1.45rem;line-height:1.25;letter-spacing:-.01em;margin:0 0 1rem;font-weight:650}
h3{font-size:1.02rem;margin:2.2rem 0 .6rem;font-weight:650}
p{margin:0 0 1rem}
a{color:var(--accent)}
section{margin-top:4rem;padding-top:1.5rem;border-top:1px solid var(--rule)}
.kind{margin:0;color:var(--quiet);font-size:.95rem}
.meta{color:var(--quiet);margin:0}
.meta .hash{font-size:.8rem;overflow-wrap:anywhere}
.marked{margin:0 0 1.2rem;padding:.45rem .9rem;border:2px solid var(--ink);display:inline-block;font-weight:600;
font-size:.95rem}
.number{color:var(--accent);margin-right:.5em;font-variant-numeric:tabular-nums}
.caution{background:var(--caution-paper);color:var(--caution-ink);border-left:4px solid var(--accent);
padding:.75rem 1rem;margin:0 0 .8rem}
.caution strong{font-family:system-ui,"Liberation Sans",sans-serif;font-size:.85rem;display:block}
.caution .source{color:var(--quiet);font-size:.85rem}
ul.caution{padding:1.1rem 1.2rem 1.1rem 2.3rem}
ul.caution li{margin:.45rem 0}
.not-yet{color:var(--quiet);font-size:.95rem;border-left:2px dashed var(--rule);padding-left:.9rem;margin:0 0 .8rem}
.short{margin:0;padding:0;list-style:none}
.short li{padding:.95rem 0;border-top:1px solid var(--rule)}
.short li:first-child{border-top:0}
.short a{font-family:system-ui,"Liberation Sans",sans-serif;font-weight:600;text-decoration:none;color:var(--ink)}
.short a:hover{text-decoration:underline}
.short p{margin:.2rem 0 0}
.key{color:var(--quiet);font-size:.88rem;line-height:1.5}
data{font-variant-numeric:tabular-nums lining-nums}
)css";

constexpr std::string_view table_rules = R"css(
.scroll{overflow-x:auto;max-width:100%}
@media screen{.scroll{background:linear-gradient(90deg,var(--paper) 40%,transparent) local,
linear-gradient(270deg,var(--paper) 40%,transparent) right local,linear-gradient(90deg,var(--rule),transparent),
linear-gradient(270deg,var(--rule),transparent) right;background-size:2rem 100%,2rem 100%,.7rem 100%,.7rem 100%;
background-repeat:no-repeat}}
.scroll:focus-visible,summary:focus-visible,a:focus-visible{outline:2px solid var(--accent);outline-offset:2px}
table{border-collapse:collapse;width:100%;font-size:.92rem;line-height:1.4;font-variant-numeric:tabular-nums lining-nums}
caption{text-align:left;font-weight:600;font-size:.98rem;padding:0 0 .5rem}
th{text-align:left;font-weight:500;vertical-align:bottom}
thead th,thead td{font-size:.82rem;color:var(--quiet);border-bottom:1px solid var(--ink);padding:.3rem .55rem;
vertical-align:bottom}
tbody th,tbody td{padding:.42rem .55rem;border-bottom:1px solid var(--rule);vertical-align:top}
tbody th{padding-left:0;overflow-wrap:break-word;min-width:7.5rem}
thead th:first-child,thead td:first-child{padding-left:0}
td.n,details td{text-align:right;white-space:nowrap}
thead th+th,thead td~th{text-align:right}
td.likely{font-weight:650}
td.u,.likely+td+td.u{white-space:nowrap;text-align:right;color:var(--quiet)}
td.why{color:var(--quiet);font-style:italic;text-align:right}
.range{display:block;color:var(--quiet);font-size:.82rem}
sup{font-size:.68em;line-height:0;color:var(--quiet);margin-left:.15em;font-weight:400}
.notes{list-style:none;margin:.5rem 0 0;padding:0;color:var(--quiet);font-size:.85rem;line-height:1.45}
.scroll+.notes{margin-bottom:2rem}
.scroll+p{margin-top:1.2rem}
.scroll{margin-top:2rem}
table.blanks th{width:45%;font-weight:400}
table.blanks td.blank{height:2.6rem}
tr.group th{padding-top:1.3rem;font-weight:650}
table.assumed td{font-size:.86rem}
table.assumed td.source{min-width:13rem;text-align:left;color:var(--quiet);line-height:1.35}
table.assumed thead th:nth-last-child(-n+2){text-align:left}
table.heat td{border:1px solid var(--paper);padding:.35rem .4rem;min-width:2.6rem}
table.heat thead th{padding:.3rem .4rem}
details.numbers{margin:.4rem 0 0;font-size:.92rem}
summary{cursor:pointer;color:var(--accent);font-size:.88rem;padding:.35rem 0}
details .scroll{max-height:22rem;overflow:auto;margin-top:.4rem}
details thead th{position:sticky;top:0;background:var(--paper)}
dl{display:grid;grid-template-columns:minmax(9rem,auto) 1fr;gap:.35rem 1.2rem;margin:0}
dt{color:var(--quiet)}
dd{margin:0;overflow-wrap:anywhere}
)css";

constexpr std::string_view chart_rules = R"css(
figure.chart{margin:2.6rem 0}
figcaption{margin-bottom:.9rem;font-size:.92rem;line-height:1.5;color:var(--quiet)}
figcaption strong{display:block;color:var(--ink);font-size:1.02rem;line-height:1.4;margin-bottom:.2rem;font-weight:650}
.panels{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,20rem),1fr));gap:1.4rem 1.6rem}
.panels.one{grid-template-columns:minmax(0,1fr)}
.panel{min-width:0}
.panel.scroll{margin-top:0}
svg{display:block;width:100%;height:auto}
.panel.wide svg{min-width:38rem}
svg text{font-size:12px;fill:var(--ink);font-variant-numeric:tabular-nums}
svg .heading{font-weight:650;font-size:13px}
svg .value{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
svg .tick,svg .unit{fill:var(--quiet);font-size:11px}
.grid{stroke:var(--rule);stroke-width:1}
.grid.zero{stroke:var(--quiet)}
.leader{stroke:var(--quiet);stroke-width:.75}
.line{fill:none;stroke:var(--ink);stroke-width:1.6;stroke-linejoin:round}
.line.bare{stroke:var(--ink);stroke-width:1.8}
.line.planted{stroke:var(--accent);stroke-width:3}
.line.planted.thin{stroke-width:1.8}
.line.white{stroke:var(--quiet);stroke-dasharray:7 3}
.line.net{stroke:var(--quiet);stroke-dasharray:1.5 3}
.line.board{stroke:var(--ink);stroke-dasharray:9 3 1.5 3;stroke-width:1.3}
svg .name.planted{font-weight:650;fill:var(--accent)}
.bar{stroke:var(--ink);stroke-width:.6;fill:var(--r3)}
.bar.bare{fill:var(--paper);stroke-width:1.2}
.bar.planted{fill:var(--accent)}
.bar.white,.bar.net,.bar.board{fill:var(--r1)}
.bar.quiet{fill:var(--r2);stroke:none}
.bar.deep{fill:var(--ink);stroke:none}
.whisker{stroke:var(--ink);stroke-width:1.3}
.mark{stroke:var(--ink);stroke-width:1.6;stroke-dasharray:5 3}
.cell{stroke:var(--rule);stroke-width:1}
.cell:not(.tinted){fill:none}
.hit{fill:transparent}
.hit:hover{fill:var(--quiet);fill-opacity:.22}
.squares{shape-rendering:crispEdges}
.hatch1{fill:url(#hatch-1)}
.hatch2{fill:url(#hatch-2)}
.hatch3{fill:url(#hatch-3)}
.hatch-paper{fill:var(--paper)}
.hatch-line{stroke:var(--ink)}
.legend{list-style:none;display:flex;flex-wrap:wrap;gap:.3rem 1.3rem;margin:0 0 .9rem;padding:0;font-size:.85rem}
.legend li{display:flex;align-items:center;gap:.5rem}
.legend .swatch{width:28px;height:12px;flex:none}
.legend rect{stroke:var(--quiet);stroke-width:.6}
svg.defs{position:absolute;width:0;height:0}
)css";

constexpr std::string_view narrow_and_print_rules = R"css(
@media (max-width:40rem){
body{font-size:1rem}
main{padding:1.8rem 1rem 3rem}
section{margin-top:2.8rem}
table{font-size:.86rem}
tbody th,tbody td,thead th,thead td{padding-left:.35rem;padding-right:.35rem}
tbody th,thead th:first-child,thead td:first-child{padding-left:0}
dl{grid-template-columns:1fr;gap:0}
dd{margin-bottom:.6rem}
caption{width:min(100%,calc(100vw - 2rem))}
table.assumed thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
table.assumed tbody tr{display:grid;grid-template-columns:1fr 3.1rem 3.3rem 3.3rem;border-bottom:1px solid var(--rule);
padding:.3rem 0}
table.assumed tbody th,table.assumed tbody td{border:0;padding:.1rem .3rem}
table.assumed tbody th,table.assumed td.certainty{padding-left:0}
table.assumed td.certainty{grid-column:1;color:var(--quiet)}
table.assumed td.certainty+td.n{grid-column:2/-1}
table.assumed td.certainty+td.n+td.source{grid-column:1/-1;padding-left:0}
table.assumed td.source{grid-column:2/-1;min-width:0}
table.assumed tr.group th{grid-column:1/-1}
}
@page{margin:16mm 15mm}
@media print{
html{font-size:9.5pt}
body{font-size:1.05rem;line-height:1.45;background:none}
main{max-width:none;padding:0}
section{margin-top:1.6rem;padding-top:.9rem}
h2,h3,caption,figcaption{break-after:avoid}
figure.chart,figcaption,.caution,.short li,tr,.panel{break-inside:avoid}
tr.group{break-after:avoid}
figure.chart{margin:1.4rem 0}
figure.chart:has(.panels.one){break-inside:auto}
.notes,.not-yet{break-before:avoid}
.short li{padding:.42rem 0}
.scroll{overflow:visible;margin-top:1.4rem}
.panel.wide svg{min-width:0}
.panels{grid-template-columns:1fr 1fr;gap:.6rem 1rem}
.panels.one{grid-template-columns:1fr}
details.numbers{display:none}
table{font-size:.9rem;break-inside:avoid}
table.assumed{font-size:.8rem;break-inside:auto}
table.assumed td{font-size:.8rem}
tbody th,tbody td{padding-top:.28rem;padding-bottom:.28rem}
thead{display:table-header-group}
#assumed{break-before:page}
section.to-sign{break-inside:avoid}
#cautions .caution{break-inside:auto}
#cautions li{break-inside:avoid}
a{color:inherit;text-decoration:none}
.bar,.squares path,.tinted,.caution,table.heat td,.legend rect{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
)css";

}  // namespace

std::string page_style() {
  const std::string light = css_from(light_palette());
  std::string css = ":root{color-scheme:light dark;" + light + "}\n";
  css += "@media screen and (prefers-color-scheme:dark){:root{" + css_from(dark_palette()) + "}}";
  css += text_rules;
  css += table_rules;
  css += chart_rules;
  for (std::size_t i = 0; i < n_ramp_steps; ++i) {
    css += fmt::format(".ramp{0}{{fill:var(--r{0})}}.tint{0}{{background:var(--r{0});color:var(--on-r{0})}}\n", i);
  }
  for (std::size_t i = 0; i < n_ramp_steps; ++i) css += fmt::format("svg text.on{0}{{fill:var(--on-r{0})}}\n", i);
  css += narrow_and_print_rules;
  return css;
}

}  // namespace houseleek::report
