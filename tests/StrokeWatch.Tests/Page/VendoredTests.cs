using System.Security.Cryptography;
using StrokeWatch.Page;
using StrokeWatch.Tests.House;
using Xunit;

namespace StrokeWatch.Tests.Page;

public sealed class VendoredTests
{
    private const string Folder = "src/StrokeWatch/Page/Assets/uPlot/";

    [Theory]
    [InlineData("uPlot.esm.js")]
    [InlineData("uPlot.min.css")]
    public void What_is_served_of_others_is_as_its_note_says_and_its_licence_lies_beside_it(string name)
    {
        var sum = Convert.ToHexStringLower(SHA256.HashData(PageAssets.Read(name)));
        Assert.Contains($"| `{name}` | `{sum}` |", SourceTree.Text(Folder + "README.md"), StringComparison.Ordinal);
        Assert.Contains("The MIT License", SourceTree.Text(Folder + "LICENSE.txt"), StringComparison.Ordinal);
    }
}
