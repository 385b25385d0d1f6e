using StrokeWatch.Page.Captures;
using Xunit;

namespace StrokeWatch.Tests.Page.Captures;

public sealed class CaptureListTests : IDisposable
{
    private readonly DirectoryInfo above = Directory.CreateTempSubdirectory("captures");
    private readonly CaptureList list;

    public CaptureListTests()
    {
        Directory.CreateDirectory(Folder);
        File.WriteAllText(Path.Combine(above.FullName, "secret.csv"), "secret");
        File.WriteAllText(Path.Combine(Folder, "one.csv"), "t,x");
        File.WriteAllText(Path.Combine(Folder, "two.wav.part"), "half");
        File.WriteAllText(Path.Combine(Folder, "one.feeder.toml"), "");
        list = new(Folder, Path.Combine(above.FullName, "none.db"));
    }

    private string Folder => Path.Combine(above.FullName, "held");

    public void Dispose() => above.Delete(recursive: true);

    [Fact]
    public void Only_whole_captures_are_listed_and_without_a_store_too() => Assert.Equal(["one.csv"], list.All().Select(one => one.File.Name));

    [Theory]
    [InlineData("../secret.csv")]
    [InlineData("..")]
    [InlineData(".")]
    [InlineData("%2e%2e/secret.csv")]
    [InlineData("held/../../secret.csv")]
    [InlineData("./one.csv")]
    [InlineData("ONE.CSV")]
    [InlineData("one.csv\0")]
    [InlineData("one.csv\0.wav")]
    [InlineData("one.feeder.toml")]
    [InlineData("")]
    [InlineData("*")]
    [InlineData("*.csv")]
    public void A_name_that_is_not_in_the_listing_finds_nothing(string name) => Assert.Null(list.Find(name));

    [Fact]
    public void An_absolute_path_finds_nothing_even_of_a_capture_that_is_listed()
    {
        Assert.NotNull(list.Find("one.csv"));
        Assert.Null(list.Find(Path.Combine(Folder, "one.csv")));
        Assert.Null(list.Find(Path.Combine(above.FullName, "secret.csv")));
    }

    [Fact]
    public void A_link_that_leads_out_is_not_there()
    {
        File.CreateSymbolicLink(Path.Combine(Folder, "link.csv"), Path.Combine(above.FullName, "secret.csv"));
        Directory.CreateSymbolicLink(Path.Combine(Folder, "folder.csv"), above.FullName);
        Assert.Null(list.Find("link.csv"));
        Assert.Null(list.Find("folder.csv"));
        Assert.Equal(["one.csv"], list.All().Select(one => one.File.Name));
    }

    [Fact]
    public void Without_a_folder_nothing_is_found()
    {
        Assert.Empty(new CaptureList(null, "none.db").All());
        Assert.Null(new CaptureList(null, "none.db").Find("one.csv"));
        Assert.Empty(new CaptureList(Path.Combine(above.FullName, "gone"), "none.db").All());
    }
}
