using StrokeWatch.Assessment.Diagnosis;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Diagnosis;

public sealed class LikelihoodTests
{
    [Fact]
    public void A_symptom_speaks_for_the_causes_that_move_it_its_way_and_against_those_that_do_not()
    {
        Assert.True(Likelihood.LogRatio(Change.Rises, 8) > 3);
        Assert.True(Likelihood.LogRatio(Change.Falls, 8) < -1);
        Assert.True(Likelihood.LogRatio(Change.Rises, 0) < -1);
        Assert.Equal(0, Likelihood.LogRatio(Change.Same, 8), 12);
        Assert.Equal(0, Likelihood.LogRatio(Change.Any, -8), 12);
        Assert.Equal(Likelihood.LogRatio(Change.Moves, 5), Likelihood.LogRatio(Change.Moves, -5), 12);
        Assert.InRange(Likelihood.LogRatio(Change.MayMove, 0), -0.3, 0);
    }

    [Fact]
    public void However_far_off_one_symptom_is_it_never_outweighs_everything_else()
    {
        Assert.Equal(Likelihood.LogRatio(Change.Rises, 60), Likelihood.LogRatio(Change.Rises, 1e6), 12);
        Assert.InRange(Likelihood.LogRatio(Change.Rises, 1e6), 5, 14);
    }

    [Fact]
    public void Every_cause_has_patterns_checks_words_and_an_id_of_its_own_and_names_only_symptoms_that_there_are()
    {
        Assert.Equal(CauseTable.All.Count, CauseTable.All.Select(cause => cause.Id).Distinct().Count());
        Assert.All(CauseTable.All, cause =>
        {
            Assert.NotEmpty(cause.Patterns);
            Assert.True(cause.CheckFirst.Count >= 2 && cause.Words.EndsWith('.') && cause.Physics.EndsWith('.') && cause.Confirm.EndsWith('.'));
            Assert.All(cause.Patterns.SelectMany(pattern => pattern.Keys), id => Assert.Contains(Symptoms.All, symptom => symptom.Id == id));
        });
    }
}
