using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>How a run of the program ended.</summary>
internal sealed record Outcome(int Status, string Out, string Error)
{
    /// <summary>Gets the lines on standard error.</summary>
    public string[] ErrorLines => Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Gives the one JSON document on standard output; fails where there is anything else.</summary>
    public JsonNode Document()
    {
        Assert.True(Out.Length > 0, $"nothing on standard output; status {Status}, standard error: {Error}");
        return JsonNode.Parse(Out)!;
    }

    /// <summary>Checks that the program turned something down: status, lines on standard error, no trace of its inside, nothing on standard output.</summary>
    public void ShouldRefuse(int status, int lines)
    {
        Assert.True(Status == status, $"status {Status}, not {status}; {Error}{Out}");
        Assert.Equal("", Out);
        ShouldBePlain();
        Assert.True(ErrorLines.Length == lines, $"{lines} lines expected:\n{Error}");
        foreach (var line in ErrorLines)
        {
            Assert.InRange(line.Length, 20, 400);
            Assert.DoesNotContain("()", line, StringComparison.Ordinal);
            Assert.Contains(": ", line, StringComparison.Ordinal);
        }
    }

    /// <summary>Checks that no exception shows.</summary>
    public void ShouldBePlain()
    {
        Assert.DoesNotContain("   at ", Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter '", Error, StringComparison.Ordinal);
    }
}
