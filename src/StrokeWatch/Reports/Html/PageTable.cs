namespace StrokeWatch.Reports.Html;

/// <summary>A table; each cell knows its column's name, which narrow screens print before it.</summary>
internal sealed class PageTable
{
    private readonly Markup page;
    private readonly IReadOnlyList<string> columns;
    private int column;

    /// <summary>Begins a table with its head.</summary>
    public PageTable(Markup page, IReadOnlyList<string> columns)
    {
        (this.page, this.columns) = (page, columns);
        page.Open("table").Open("thead").Open("tr");
        foreach (var name in columns)
        {
            page.Leaf("th", name, ("scope", "col"));
        }

        page.Close().Close().Open("tbody");
    }

    /// <summary>Writes a whole row.</summary>
    public void Row(params ReadOnlySpan<string> cells)
    {
        page.Open("tr");
        foreach (var cell in cells)
        {
            Cell(cell);
        }

        page.Close();
    }

    /// <summary>Writes a cell.</summary>
    public void Cell(string text) => Cell(() => page.Text(text));

    /// <summary>Writes a cell with a link inside the page.</summary>
    public void Link(string text, string target) => Cell(() => page.Open("a", ("href", target)).Leaf("bdi", text).Close());

    /// <summary>Writes a cell with anything in it.</summary>
    public void Cell(Action content)
    {
        page.Open("td", ("data-name", columns[column]));
        content();
        page.Close();
        column = (column + 1) % columns.Count;
    }

    /// <summary>Ends the table.</summary>
    public void End() => page.Close().Close();
}
