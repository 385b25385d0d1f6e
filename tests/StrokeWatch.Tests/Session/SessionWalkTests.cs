using StrokeWatch.Session;
using StrokeWatch.Session.Steps;
using StrokeWatch.Tests.Commands;
using Xunit;

namespace StrokeWatch.Tests.Session;

/// <summary>Seeded walks through the session with right and wrong answers.</summary>
public sealed class SessionWalkTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Whatever_is_answered_every_question_can_be_asked_again_from_the_book(int seed)
    {
        var random = new Random(seed);
        var bench = new SessionBench(null);
        var seen = new HashSet<string>();
        for (var i = 0; i < 400 && !bench.Done; i++)
        {
            var asked = bench.Asked;
            seen.Add(asked.Id);
            Assert.Equal(bench.State.Step, asked.Id);
            Assert.True(bench.State.LockedOut || !StillLockedStep.HandsOn(asked.Id), $"seed {seed}, {asked.Id}: hands near a machine that is not locked out");
            Assert.True(SessionMachine.Knows(asked.Id));
            Assert.NotEqual("", asked.Title);
            Assert.NotEqual("", asked.Explain);
            Assert.InRange(asked.Choices.Count, 0, SessionStep.Keys.Length);
            Assert.Equal(asked.Choices.Count, asked.Choices.Select(choice => choice.Id).Distinct().Count());
            Assert.InRange(asked.Choices.Count(choice => choice.Enter), 0, 1);

            // What the book holds brings back the same state, and with it the same question.
            var back = SessionMemory.Read(bench.State.Step, bench.State.Who, SessionMemory.Write(bench.State))!;
            Assert.Equal(SessionMemory.Write(bench.State), SessionMemory.Write(back));
            Assert.Equal((bench.State.Step, bench.State.Who), (back.Step, back.Who));

            var (measured, locked) = (bench.Wishes.Count, bench.State.LockedOut);
            var turn = bench.Answer(Draw(random, asked, bench.Trials.Count));
            Assert.True(turn.Refused is null || turn.Next is null);
            Assert.True(bench.Wishes.Count == measured || !locked, $"seed {seed}, {asked.Id}: measured while the feeder was locked out");
        }

        Assert.True(seen.Count > 12, string.Join(' ', seen));
    }

    [Fact]
    public void Every_text_is_the_same_under_a_decimal_comma()
    {
        static string Walk()
        {
            var bench = new SessionBench(null);
            var text = new List<string>();
            for (var i = 0; i < 60 && !bench.Done; i++)
            {
                var asked = bench.Asked;
                text.AddRange([asked.Title, .. asked.Text, .. asked.Choices.Select(choice => choice.Words), asked.Asks ?? "", asked.EnterMeans ?? "", asked.Explain]);
                text.AddRange(bench.Answer("x").Refused is { } refused ? [refused] : []);
                text.AddRange(bench.Answer(asked.Choices.Count > 0 ? "1" : asked.Id == "who" ? "Kim" : "").Said);
            }

            text.AddRange(bench.Asked.Text);
            Assert.True(bench.Done);
            return string.Join('\n', text);
        }

        var plain = Walk();
        Assert.Equal(plain, TuneFiles.WithDecimalComma(Walk));
        Assert.Contains(" mm (0.0", plain, StringComparison.Ordinal);
    }

    [Fact]
    public void The_record_says_what_to_write_into_the_feeder_file_where_leaves_were_changed()
    {
        var bench = new SessionBench().Until(SessionSteps.Over);
        var layer = Assert.Single(bench.State.Rear, leaf => leaf.ThicknessMetres == bench.State.Rear.Max(other => other.ThicknessMetres));
        Assert.NotEqual(StackText.Write(SessionBench.Feeder.Springs!.Rear), StackText.Write(bench.State.Rear));
        Assert.Contains($"write rear = [ {{ thickness_mm = {layer.ThicknessMetres * 1e3:0.0}, count = {layer.Count} }}", bench.Asked.Text[^1], StringComparison.Ordinal);
        bench.Resume(bench.State with { Rear = SessionBench.Feeder.Springs!.Rear });
        Assert.DoesNotContain(bench.Asked.Text, line => line.StartsWith("to do", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("{\"rear\":\"4x4.0\"}")]
    [InlineData("{\"rear\":7,\"tray_change_kg\":0,\"trail\":[],\"locked_out\":false}")]
    [InlineData("{\"rear\":\"none\",\"tray_change_kg\":0,\"trail\":[],\"locked_out\":false}")]
    public void Memory_that_this_program_did_not_write_is_none(string memory) => Assert.Null(SessionMemory.Read("measure", null, memory));

    /// <summary>Draws an answer: mostly the first choices, sometimes rubbish; a reading now and then, not many, as each asks for advice.</summary>
    private static string Draw(Random random, SessionStep asked, int trials)
    {
        var dice = random.Next(12);
        return dice == 0 ? "b" : dice == 1 && trials < 6 ? "c" : dice == 2 ? "rubbish" : dice == 3 ? ""
            : asked.Id == "measure" && trials >= 6 ? "c"
            : asked.Choices.Count > 0 ? SessionStep.Keys[dice < 9 ? 0 : random.Next(asked.Choices.Count)].ToString()
            : asked.Id is "who" or "sign" ? "Kim" : asked.Id == "tray" ? "1" : "4x4.0 2x3.0";
    }
}
