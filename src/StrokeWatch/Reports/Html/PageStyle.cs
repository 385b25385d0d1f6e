namespace StrokeWatch.Reports.Html;

/// <summary>The page's style sheet: bottle glass and amber on clear, edges graduated like a rule; light, dark and print.</summary>
internal static class PageStyle
{
    /// <summary>The sheet; it names nothing outside the page.</summary>
    public const string Sheet = """

        :root { --paper: #f5f8f6; --sheet: #ffffff; --ink: #12241f; --soft: #4c615a; --line: #b6c6bf; --faint: #dde7e2; --glass: #0d6453; --wash: #0d645326; --amber: #8a5200; --stop: #a01722; }
        @media (prefers-color-scheme: dark) {
          :root { --paper: #0e1613; --sheet: #141f1b; --ink: #e3eee9; --soft: #a3b7b0; --line: #40534c; --faint: #25342e; --glass: #79d3b9; --wash: #79d3b92e; --amber: #e8b15c; --stop: #ff9188; }
        }
        * { box-sizing: border-box; }
        html { background: var(--paper); color: var(--ink); -webkit-text-size-adjust: 100%; }
        body { margin: 0 auto; max-width: 66rem; padding: 0 1.25rem 2rem; font: 1rem/1.5 Bahnschrift, "DIN Alternate", "Noto Sans", "DejaVu Sans", sans-serif; font-variant-numeric: tabular-nums; }
        p, ol, dl, table, figure { margin: 0 0 .6rem; }
        bdi { overflow-wrap: anywhere; }
        a { color: var(--glass); }
        article, nav { position: relative; padding-top: 2.6rem; }
        article::before, nav::before { content: ""; position: absolute; left: 0; right: 0; top: 0; height: 1.1rem; border-top: 2px solid var(--ink);
          background: repeating-linear-gradient(90deg, var(--ink) 0 1px, transparent 1px 80px) 0 0 / 100% 100% no-repeat,
            repeating-linear-gradient(90deg, var(--ink) 0 1px, transparent 1px 40px) 0 0 / 100% 70% no-repeat,
            repeating-linear-gradient(90deg, var(--ink) 0 1px, transparent 1px 8px) 0 0 / 100% 40% no-repeat; }
        article + article, nav + article { margin-top: 3rem; }
        h1 { font-size: 1.7rem; line-height: 1.15; font-weight: 600; margin: 0; }
        h2 { font-size: 1.12rem; font-weight: 600; margin: 0 0 .7rem; }
        h3 { font-size: 1rem; font-weight: 600; margin: 0 0 .3rem; }
        h3 span { font-weight: 400; color: var(--soft); margin-left: .6rem; }
        .from { color: var(--soft); }
        .name { color: var(--soft); font-size: .85rem; margin: 0 0 .1rem; }
        .reading { display: grid; grid-template-columns: 1.75fr 1fr 1.15fr; gap: 1rem 1.8rem; margin: 1.2rem 0 .9rem; align-items: start; }
        .big { margin: 0; line-height: 1.05; }
        .big b { font-size: 3.3rem; font-weight: 600; letter-spacing: -.02em; white-space: nowrap; }
        .big span { font-size: 1.7rem; color: var(--soft); white-space: nowrap; margin-left: .5rem; }
        .spread-words, .reason { margin: .3rem 0 0; }
        .words { font-size: 1.25rem; line-height: 1.25; font-weight: 600; margin: 0; }
        .quiet .words { font-weight: 400; font-size: 1.05rem; }
        .over-stroke .words, .strike .words { color: var(--stop); }
        .low .words, .high .words, .unmeasurable .words { color: var(--amber); }
        .in-band .words { color: var(--glass); }
        .sign-box { width: 1.15em; height: 1.15em; margin-right: .45em; vertical-align: -.2em; }
        .sign-box path { fill: none; stroke: currentColor; stroke-width: 2.6; }
        .detail, figcaption { color: var(--soft); font-size: .9rem; max-width: 62rem; }
        .caution { border: 2px solid var(--ink); padding: .55rem .8rem; margin: .9rem 0 0; font-size: .92rem; }
        section { margin-top: 2.2rem; }
        .plots { display: grid; grid-template-columns: 1fr 1fr; gap: 1.6rem 2.2rem; align-items: start; }
        figure { break-inside: avoid; }
        table { border-collapse: collapse; width: 100%; font-size: .93rem; }
        th, td { text-align: left; vertical-align: top; padding: .4rem .9rem .4rem 0; border-bottom: 1px solid var(--line); }
        th { font-weight: 600; border-bottom: 2px solid var(--ink); line-height: 1.25; }
        td:last-child, th:last-child { padding-right: 0; }
        .sum td { font-weight: 600; }
        .share { display: block; width: 6.5rem; height: .5rem; }
        .finding { display: grid; grid-template-columns: 1fr 1.4fr; gap: 0 2.2rem; border-top: 1px solid var(--line); padding: .7rem 0 .3rem; break-inside: avoid; }
        .finding h3 { grid-column: 1 / -1; }
        ol { padding-left: 1.4rem; }
        dl { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2.2rem; font-size: .93rem; }
        dl div { display: grid; grid-template-columns: 8.5rem 1fr; gap: 0 .7rem; border-bottom: 1px solid var(--line); padding: .35rem 0; }
        dt { color: var(--soft); }
        dd { margin: 0; }
        footer { margin-top: 2.4rem; border-top: 2px solid var(--ink); padding-top: .6rem; color: var(--soft); font-size: .9rem; }

        .patterns { position: absolute; }
        .drawing { display: block; width: 100%; height: auto; }
        .narrow { display: none; }
        .drawing path, .hatch-line, .hatch-dark { fill: none; }
        .drawing text { font-size: 12px; fill: var(--ink); }
        .drawing .number { font-size: 11.5px; fill: var(--soft); }
        .drawing .unit { fill: var(--soft); }
        .drawing .strong { font-weight: 600; }
        .drawing .halo { paint-order: stroke; stroke: var(--paper); stroke-width: 4px; stroke-linejoin: round; }
        .drawing .plate { fill: var(--sheet); }
        .drawing .gap { fill: var(--paper); }
        .drawing .body { fill: var(--sheet); stroke: var(--ink); stroke-width: 1.2; }
        .drawing .axis { stroke: var(--ink); stroke-width: 1; }
        .drawing .grid { stroke: var(--faint); stroke-width: 1; }
        .drawing .fine { stroke-dasharray: 1 3; }
        .drawing .zero, .drawing .cycle { stroke: var(--line); stroke-width: 1; }
        .drawing .cycle { stroke-dasharray: 5 4; }
        .drawing .band { fill: url(#hatch-band); }
        .drawing .edge { stroke: var(--glass); stroke-width: 1.2; }
        .drawing .limit { stroke: var(--stop); stroke-width: 2.6; }
        .drawing .spread { stroke: var(--ink); stroke-width: 1.6; }
        .drawing .wedge { fill: var(--ink); }
        .drawing .ink { stroke: var(--ink); stroke-width: 1.7; stroke-linejoin: round; }
        .drawing .trace { stroke: var(--soft); stroke-width: .8; stroke-linejoin: round; }
        .drawing .dot { fill: var(--ink); }
        .drawing .sample { fill: var(--sheet); stroke: var(--glass); stroke-width: 1; }
        .drawing .ribbon { fill: var(--wash); }
        .drawing .ribbon-edge { stroke: var(--glass); stroke-width: 1; stroke-dasharray: 3 3; }
        .drawing .line { stroke: var(--amber); stroke-width: 1.4; stroke-dasharray: 8 5; }
        .drawing .tick-end { stroke: var(--ink); stroke-width: 2.2; }
        .drawing .noise { stroke: var(--amber); stroke-width: 1.4; stroke-dasharray: 6 4; }
        .order { fill: var(--glass); }
        .drawing .high { fill: url(#hatch-order); stroke: var(--ink); stroke-width: 1; }
        .drawing .faint { fill: var(--paper); stroke: var(--soft); stroke-width: .8; }
        .drawing .thin { fill: var(--ink); }
        .drawing .bar { fill: var(--line); }
        .drawing .still { fill: none; stroke: var(--soft); }
        .drawing .loud { fill: var(--ink); }
        .drawing .alarm { fill: url(#hatch-alarm); stroke: var(--ink); stroke-width: 1; }
        .drawing .sign { stroke: var(--ink); stroke-width: 1.6; fill: none; }
        .hatch-line { stroke: var(--glass); stroke-width: 1; opacity: .55; }
        .hatch-dark { stroke: var(--ink); stroke-width: 2.4; }
        .share .axis { stroke: var(--line); }

        @media screen and (max-width: 44rem) {
          body { padding: 0 .9rem 1.5rem; }
          .reading, .plots, .finding, dl { grid-template-columns: 1fr; }
          .big b { font-size: 2.7rem; }
          .big span { font-size: 1.35rem; }
          .wide { display: none; }
          .narrow { display: block; }
          thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
          table, tbody { display: block; }
          tr { display: block; border-bottom: 1px solid var(--line); padding: .4rem 0; }
          td { display: grid; grid-template-columns: 8.5rem 1fr; border: 0; padding: .1rem 0; overflow-wrap: anywhere; }
          td::before { content: attr(data-name); color: var(--soft); padding-right: .6rem; }
          td:empty { display: none; }
          .share { grid-column: 2; }
        }
        @media print {
          :root { --paper: #fff; --sheet: #fff; --ink: #000; --soft: #333; --line: #999; --faint: #ddd; --glass: #333; --wash: #0000001f; --amber: #000; --stop: #000; }
          html { font-size: 9.5pt; }
          body { max-width: none; padding: 0; }
          .big b { font-size: 2.7rem; }
          .big span { font-size: 1.4rem; }
          article + article { break-before: page; }
          section, figure, tr, .finding { break-inside: avoid; }
          h2, h3 { break-after: avoid; }
          * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
        }

        """;
}
