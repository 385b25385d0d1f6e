using System.Globalization;

namespace StrokeWatch.Outputs.Captures;

/// <summary>Keeps waveforms of alarms and of trials from being removed to make room, and lets them go again: a file NAME.keep beside one says so, and by whom, whatever program asks.</summary>
/// <remarks>Kept ones may take half of the quota together, so that the next alarm's waveform always finds room.</remarks>
public sealed class CapturePins(AlarmCaptureOptions options)
{
    private const int MostWords = 300;

    private readonly CaptureFolder folder = new(options);
    private readonly TrialRoom trials = new(options.Folder, options.TrialQuotaBytes);

    /// <summary>Says whether a capture may be removed.</summary>
    /// <param name="name">Its file's name.</param>
    public CaptureKeep Of(string name) => Always(name) ? CaptureKeep.Always : File.Exists(Beside(name)) ? CaptureKeep.Kept : CaptureKeep.No;

    /// <summary>Gives who keeps a capture and why, as it was written down; null where nobody does, or nothing is written there.</summary>
    public string? Words(string name)
    {
        if (Of(name) != CaptureKeep.Kept)
        {
            return null;
        }

        using var reader = new StreamReader(Beside(name));
        var words = new char[MostWords];
        var text = new string(words, 0, reader.ReadBlock(words)).Split('\n')[0].Trim();
        return text.Length == 0 ? null : text;
    }

    /// <summary>Keeps a capture; gives why not in a sentence, null where it is kept.</summary>
    /// <param name="name">The name of a file that is in the folder.</param>
    /// <param name="who">Who wants it kept.</param>
    /// <param name="why">Why; may be empty.</param>
    /// <param name="at">When.</param>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    public string? Keep(string name, string who, string why, DateTimeOffset at)
    {
        if (Of(name) != CaptureKeep.No)
        {
            return $"{name} is kept already";
        }

        var capture = System.IO.Path.Combine(options.Folder, name);
        if (TrialRoom.IsTrial(name))
        {
            if (2 * (trials.KeptBytes + trials.SizeOf(name)) > trials.QuotaBytes)
            {
                return string.Create(CultureInfo.InvariantCulture, $"kept captures of trials would take more than half of their quota ({trials.QuotaBytes / 2_000_000} MB), and the next trial must find room: let another go, or raise `trials_mb`");
            }
        }
        else if (folder.Room() is { } room && 2 * (room.KeptBytes + folder.SizeOf(System.IO.Path.GetFileNameWithoutExtension(name))) > options.QuotaBytes)
        {
            return string.Create(CultureInfo.InvariantCulture, $"kept captures would take more than half of the quota ({options.QuotaBytes / 2_000_000} MB), and the next alarm's waveform must find room: let another go, or raise `quota_mb`");
        }

        File.WriteAllText(Beside(name), string.Create(CultureInfo.InvariantCulture, $"{at.UtcDateTime:yyyy-MM-dd HH:mm} UTC, {who}{(why.Length > 0 ? ": " + why : "")}\n"));
        if (File.Exists(capture))
        {
            return null;
        }

        // It was removed between the question and the answer.
        File.Delete(Beside(name));
        return $"{name} was removed just now to make room";
    }

    /// <summary>Lets a capture go when room is needed; gives why not in a sentence, null where it may go.</summary>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    public string? Release(string name)
    {
        switch (Of(name))
        {
            case CaptureKeep.Kept:
                File.Delete(Beside(name));
                return null;
            case CaptureKeep.No:
                return $"{name} is not kept";
            default:
                return CaptureFolder.IsAlarms(name) || TrialRoom.IsTrial(name) ? $"{name} is kept by the configuration: take it out of `keep` in [captures]" : $"{name} is no waveform of an alarm or of a trial and is never removed";
        }
    }

    private bool Always(string name) => !(CaptureFolder.IsAlarms(name) || TrialRoom.IsTrial(name)) || options.Keep.Contains(System.IO.Path.GetFileNameWithoutExtension(name));

    private string Beside(string name) => System.IO.Path.Combine(options.Folder, System.IO.Path.GetFileNameWithoutExtension(name) + ".keep");
}
