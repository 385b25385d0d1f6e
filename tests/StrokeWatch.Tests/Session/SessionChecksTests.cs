using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Outputs.Book;
using Xunit;

namespace StrokeWatch.Tests.Session;

public sealed class SessionChecksTests
{
    [Fact]
    public void Checks_are_gone_to_by_a_key_and_come_back_to_the_very_step()
    {
        var bench = new SessionBench().ToMeasure().Go("c");
        Assert.Equal(("checks", "measure"), (bench.State.Step, bench.State.ReturnTo));
        Assert.Equal(CheckTable.All.Count + 1, bench.Asked.Choices.Count);
        bench.Go("0");
        Assert.Equal(("measure", null), (bench.State.Step, bench.State.ReturnTo));
    }

    [Fact]
    public void Enter_goes_through_them_in_order_and_the_lock_out_is_asked_for_before_hands_go_near()
    {
        var bench = new SessionBench().ToMeasure().Go("c");
        foreach (var check in CheckTable.All)
        {
            bench.Go("");
            if (check.LockOut && !bench.State.LockedOut)
            {
                Assert.Equal("check-lock-out", bench.State.Step);
                bench.Go("1");
            }

            Assert.Equal($"check:{check.Id}", bench.State.Step);
            Assert.Equal(check.LockOut, bench.State.LockedOut);
            bench.Go("1");
        }

        Assert.Equal(CheckTable.All.Select(check => (check.Id, check.Choices[0].Id)), bench.Found.Select(found => (found.Check, found.Choice)));
        Assert.Contains("So far nothing points to a fault.", bench.Asked.Text);
        bench.Go("", "1");
        Assert.Equal("restart", bench.State.Step);
    }

    [Fact]
    public void Who_cannot_lock_out_now_goes_back_to_the_list()
    {
        var bench = new SessionBench().ToMeasure().Go("c", "6", "2");
        Assert.Equal(("checks", false, null), (bench.State.Step, bench.State.LockedOut, bench.State.Check));
        Assert.Empty(bench.Found);
    }

    [Fact]
    public void What_is_found_puts_the_causes_in_order_with_its_own_words()
    {
        var bench = new SessionBench().ToMeasure().Go("c", "2", "2");
        var text = string.Join('\n', bench.Asked.Text);
        Assert.Contains("%  The tray rubs on its chute, hopper or housing.\n     You found the tray touching or rubbing on something.", text, StringComparison.Ordinal);
        Assert.Contains(bench.Asked.Choices, choice => choice.Words.EndsWith(": it touches or rubs", StringComparison.Ordinal));
        bench.Go("6", "1", "2");
        text = string.Join('\n', bench.Asked.Text);
        Assert.True(text.IndexOf("cracked", StringComparison.Ordinal) is >= 0 and var crack && crack < text.IndexOf("The tray rubs", StringComparison.Ordinal), text);
        bench.Go("6", "1");
        Assert.DoesNotContain("The tray or one of its welds is cracked.", string.Join('\n', bench.Asked.Text), StringComparison.Ordinal);
    }

    [Fact]
    public void A_check_that_was_not_made_is_no_answer_and_another_coil_is_an_entry_of_the_book()
    {
        var bench = new SessionBench().ToMeasure().Go("c", "1", "4");
        Assert.Empty(bench.Found);
        bench.Go("9", "1", "2");
        var entry = Assert.Single(bench.Entries);
        Assert.Equal((BookEntryKind.Coil, "Kim"), (entry.Kind, entry.Who));
    }
}
