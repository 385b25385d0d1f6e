using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Chips;

/// <summary>The way to a chip: bus, identity, settings, self-test; gone again whenever the chip is lost.</summary>
/// <param name="settings">The chip as configured.</param>
/// <param name="connect">Opens the bus; it may throw what a bus throws.</param>
/// <param name="time">The clock.</param>
/// <param name="tell">Hears in a sentence what is amiss with a chip that is used all the same.</param>
/// <param name="pause">Stands in for real waits, and then the reader drives the chip, for tests.</param>
internal sealed class ChipOpener(ChipSettings settings, Func<IChipDriver> connect, TimeProvider time, Action<string>? tell = null, Action<TimeSpan>? pause = null) : IByteSourceOpener
{
    private readonly HashSet<string> told = new(StringComparer.Ordinal);
    private ushort starts;

    /// <inheritdoc/>
    public string Name => settings.Name;

    /// <summary>Gets what the chip showed at its last start; null where it did not come so far.</summary>
    public SelfTestResult? Shown { get; private set; }

    /// <inheritdoc/>
    public OpenResult Open()
    {
        Shown = null;
        if (BusBudget.Trouble(settings) is { } unfit)
        {
            return Failed(OpenFault.Other, unfit);
        }

        IChipDriver? driver = null;
        try
        {
            driver = connect();
            var trouble = Start(driver);
            if (trouble is null)
            {
                // Zero would say that starts cannot be told apart.
                starts = (ushort)Math.Max(1, (starts + 1) & 0xFFFF);
                return OpenResult.Opened(new ChipSource(driver, settings, starts, time, pause));
            }

            driver.Dispose();
            return Failed(OpenFault.Other, trouble);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or InvalidOperationException or TimeoutException or PlatformNotSupportedException)
        {
            driver?.Dispose();
            return ChipDevices.Trouble(settings, fault) is { } known ? new(null, known.Fault, known.Words) : Failed(OpenFault.Other, BusFault.Words(fault));
        }
    }

    private string? Start(IChipDriver driver)
    {
        if ((driver.Identify() ?? driver.Start(Wait)) is { } wrong)
        {
            return wrong;
        }

        if (settings.Model.Limits.Length > 0)
        {
            Tell(settings.Model.Limits);
        }

        Shown = new SelfTestRun(driver, settings, Wait).Run();
        if (Shown is null)
        {
            return "the chip answers but takes no samples: check supply and wiring";
        }

        if (Shown.Verdict == SelfTestVerdict.Dead)
        {
            return $"{Shown.Words}; the chip is broken: replace it";
        }

        if (Shown.Verdict == SelfTestVerdict.OutOfLimits)
        {
            Tell($"{settings.Name}: {Shown.Words}; check it against a calibration");
        }

        if (!Shown.GravityPlausible)
        {
            Tell(string.Create(
                System.Globalization.CultureInfo.InvariantCulture,
                $"{settings.Name}: gravity reads {Shown.GravityG:0.00} g: a chip of another scale with the same identity, or a broken one; check `kind` and the part"));
        }

        return null;
    }

    private void Tell(string words)
    {
        if (told.Add(words))
        {
            tell?.Invoke(words);
        }
    }

    private void Wait(TimeSpan wait)
    {
        if (pause is not null)
        {
            pause(wait);
            return;
        }

        using var never = new ManualResetEvent(false);
        _ = never.WaitOne(wait);
    }

    private OpenResult Failed(OpenFault fault, string words) => new(null, fault, $"{settings.Model.Name} on {settings.Name}: {words}");
}
