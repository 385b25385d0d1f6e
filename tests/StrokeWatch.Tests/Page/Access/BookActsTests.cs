using System.Net;
using System.Text.Json.Nodes;
using StrokeWatch.Outputs.Book;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>Entries of the machine book through the page's API.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class BookActsTests : IDisposable
{
    private readonly ServedPage page = new();

    public void Dispose() => page.Dispose();

    [Fact]
    public async Task A_technician_writes_notes_an_engineer_sets_what_was_done_and_an_operator_neither()
    {
        Task<(HttpStatusCode Status, JsonNode Said)> Post(string what, JsonObject body) => ServedPage.Answer(ServedPage.Post(page.Client, $"api/v1/book/{what}", body));
        JsonObject Note() => new() { ["text"] = " A rattle at the rear clamp " };
        JsonObject Gap() => new() { ["kind"] = "air-gap", ["gap"] = "2.2 mm", ["text"] = "gauged warm" };

        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        Assert.Equal(HttpStatusCode.Forbidden, (await Post("note", Note())).Status);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Tom"));
        Assert.Equal(HttpStatusCode.OK, (await Post("note", Note())).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await Post("set", Gap())).Status);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Erika Ley"));
        Assert.Equal(HttpStatusCode.OK, (await Post("set", Gap())).Status);
        Assert.Equal(HttpStatusCode.OK, (await Post("set", new() { ["kind"] = "leaf-set", ["rear"] = "4x4.0 1x3.0" })).Status);

        var kept = page.Book();
        Assert.Equal([BookEntryKind.Note, BookEntryKind.AirGap, BookEntryKind.LeafSet], kept.Select(entry => entry.Kind));
        Assert.Equal(["Tom", "Erika Ley", "Erika Ley"], kept.Select(entry => entry.Who!));
        Assert.Equal(("A rattle at the rear clamp", 2.2e-3, "4x4.0 1x3.0"), (kept[0].Text, Math.Round(kept[1].GapMetres!.Value, 9), kept[2].Rear));
    }

    [Fact]
    public async Task The_book_is_read_by_anybody_and_reminders_are_set_by_an_engineer()
    {
        async Task<JsonNode> Book() => JsonNode.Parse(await page.Client.GetStringAsync("api/v1/book"))!;
        Task<(HttpStatusCode Status, JsonNode Said)> Post(string what, JsonObject body) => ServedPage.Answer(ServedPage.Post(page.Client, $"api/v1/book/{what}", body));
        var none = await Book();
        Assert.Equal((true, "nothing is in the machine book yet"), ((bool)none["kept"]!, (string)none["reason"]!));
        Assert.Null(none["book"]);

        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Tom"));
        JsonObject Every(int hours) => new() { ["kind"] = "inspection", ["every_h"] = hours };
        Assert.Equal(HttpStatusCode.Forbidden, (await Post("remind", Every(500))).Status);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Erika Ley"));
        Assert.Equal(HttpStatusCode.OK, (await Post("remind", Every(500))).Status);
        Assert.Equal(HttpStatusCode.OK, (await Post("set", new() { ["kind"] = "inspection", ["text"] = "no cracks" })).Status);
        Assert.Equal(HttpStatusCode.OK, (await Post("set", new() { ["kind"] = "leaf-set", ["rear"] = "4x4.0", ["front"] = "4x4.0" })).Status);
        var book = (await Book())["book"]!;
        Assert.Equal(("sand.book.sqlite", "Sand feeder"), ((string)book["book"]!, (string)book["feeder"]!));
        Assert.Equal([("inspection", "no cracks"), ("leaf-set", "rear 4 x 4 mm (0.157 in); front 4 x 4 mm (0.157 in)")], book["entries"]!.AsArray().Select(entry => ((string)entry!["kind"]!, ((string)entry["words"]!).Replace('×', 'x'))));
        var reminder = Assert.Single(book["reminders"]!.AsArray())!;
        Assert.Equal(("inspection", "later", 500.0), ((string)reminder["kind"]!, (string)reminder["state"]!, (double)reminder["every_h"]!));
        Assert.Equal(HttpStatusCode.OK, (await Post("remind", new() { ["kind"] = "inspection", ["off"] = true })).Status);
        Assert.Empty((await Book())["book"]!["reminders"]!.AsArray());
        var (status, said) = await Post("remind", new() { ["kind"] = "inspection" });
        Assert.Equal((HttpStatusCode.BadRequest, true), (status, ((string)said["error"]!).Contains("the interval is missing", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("""{"kind":"leaf-set"}""", "`rear` is missing for the kind leaf-set")]
    [InlineData("""{"kind":"coil","front":"4x4.0"}""", "`front` belongs to the kind leaf-set, not to the kind coil")]
    [InlineData("""{"kind":"note","text":"x"}""", "`kind`")]
    [InlineData("""{"kind":"air-gap"}""", "`gap` is missing")]
    [InlineData("""{"kind":"cleaning","gap":"2 mm"}""", "`gap` belongs to the kind air-gap")]
    [InlineData("""{"kind":"air-gap","gap":"200 mm"}""", "100 mm at most")]
    [InlineData("""{"kind":"leaf-set","rear":"many"}""", "`rear`")]
    [InlineData("""{"kind":"bolt-torque","torque_nm":0}""", "`torque_nm`")]
    public async Task What_will_not_do_is_said_in_one_line_and_not_kept(string body, string words)
    {
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Erika Ley"));
        var (status, said) = await ServedPage.Answer(ServedPage.Post(page.Client, "api/v1/book/set", JsonNode.Parse(body)!.AsObject()));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(words, (string)said["error"]!, StringComparison.Ordinal);
    }
}
