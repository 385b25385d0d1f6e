using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The style sheet of a record as a page: that of the other pages, in a column that prints on A4 and on Letter.</summary>
internal static class RecordStyle
{
    /// <summary>The sheet; it names nothing outside the page. The paper is left to who prints; margins and page numbers are set.</summary>
    public const string Sheet = PageStyle.Sheet + """

        body { max-width: 54rem; }
        section { margin-top: 1.9rem; }
        .big b { font-size: 2.5rem; }
        .big span { font-size: 1.3rem; }
        .facts { display: block; }
        .facts div { grid-template-columns: 9rem 1fr; }
        .facts, .facts dd { overflow-wrap: anywhere; }
        h3 { margin-top: .8rem; }
        ol { margin-top: .6rem; }
        td { overflow-wrap: break-word; }
        .signature { display: grid; grid-template-columns: 2fr 1fr 2fr; gap: 0 1.6rem; margin-top: 2.2rem; break-inside: avoid; }
        .signature p { margin: 0; }
        .signature + p { margin-top: .9rem; }
        .signature .hand { border-bottom: 1px solid var(--ink); min-height: 1.8rem; padding-top: .2rem; }
        @media screen and (max-width: 44rem) {
          .signature { grid-template-columns: 1fr; }
        }
        @media (min-width: 44rem), print {
          .reading { grid-template-columns: 1.6fr 1fr 1fr; }
          td:first-child { white-space: nowrap; }
        }
        @page { margin: 15mm 15mm 17mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt "DejaVu Sans", sans-serif; color: #333; } }
        @media print {
          html { background: none; font-size: 9pt; }
          section { break-inside: auto; margin-top: 1.3rem; }
          thead { display: table-header-group; }
          .caution, li, .facts div { break-inside: avoid; }
          h2 + *, h3 + * { break-before: avoid; }
          .big b { font-size: 2.3rem; }
          .big span { font-size: 1.2rem; }
          .words { font-size: 1.1rem; }
        }

        """;
}
