namespace StrokeWatch.Session.Steps;

/// <summary>A condition under which a reading counts: met, or what to do until it is.</summary>
/// <param name="id">The step's id.</param>
/// <param name="title">The condition.</param>
/// <param name="question">What it means.</param>
/// <param name="todo">What to do where it is not met.</param>
/// <param name="explain">Why it matters.</param>
/// <param name="next">The step that follows.</param>
internal sealed class ConditionStep(string id, string title, string question, string todo, string explain, string next) : ISessionStep
{
    /// <inheritdoc/>
    public string Id => id;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new() { Id = id, Title = title, Text = [question], Choices = [new("yes", "yes", true), new("no", "no")], Explain = explain };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => answer == "yes"
        ? new() { Next = scene.State with { Step = next } }
        : new() { Next = scene.State, Said = [todo] };
}
