using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Session.Steps;

/// <summary>Asks which rear stack is in.</summary>
internal sealed class RearStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.Rear;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Rear stack",
        Text = ["Count the rear leaves that are in now, from outside. Written down as 4x4.0 1x3.0: four leaves of 4 mm and one of 3 mm."],
        Asks = "the rear stack",
        EnterMeans = Stacks.Words(scene.State.Rear),
        Explain = "The advice starts from what is really in. A stack that is written down wrongly sends it the wrong way.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var rear = answer.Length == 0 ? scene.State.Rear : Read(answer, scene.Feeder, out var trouble) is { } read ? read : null;
        return rear is null
            ? SessionTurn.Refuse(Trouble(answer, scene.Feeder))
            : new() { Next = scene.State with { Step = scene.State.LockedOut ? SessionSteps.Restart : SessionSteps.Measure, Rear = rear } };
    }

    /// <summary>Reads a stack that the rear clamp takes; null where it is none, and the trouble then says why.</summary>
    public static IReadOnlyList<LeafLayer>? Read(string text, FeederDescription feeder, out string? trouble)
    {
        if (StackText.Read(text, out trouble) is not { } stack)
        {
            return null;
        }

        var leaves = stack.Sum(layer => layer.Count);
        if (feeder.Springs?.MaxRearLeaves is { } most && leaves > most)
        {
            trouble = string.Create(CultureInfo.InvariantCulture, $"{leaves} leaves; the rear clamp takes {most} at most (springs.max_rear_leaves in the feeder file).");
            return null;
        }

        return stack;
    }

    /// <summary>Says why a stack was not understood.</summary>
    public static string Trouble(string text, FeederDescription feeder)
    {
        _ = Read(text, feeder, out var trouble);
        return trouble ?? "";
    }
}
