using System.Diagnostics;
using System.Text.RegularExpressions;
using StrokeWatch.Outputs.Webhook;
using StrokeWatch.Tests.Sensors.Pages;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Webhook;

/// <summary>What hardware-notes/webhook.md tells the other side to do, done.</summary>
public sealed partial class WebhookNotesTests
{
    [SkippableFact]
    public void The_lines_of_the_notes_find_a_message_right_and_a_changed_one_wrong()
    {
        Skip.IfNot(File.Exists("/usr/bin/openssl") && File.Exists("/bin/bash"), "openssl or bash is not installed.");
        var folder = Directory.CreateTempSubdirectory("strokewatch-webhook-notes-").FullName;
        try
        {
            var body = """{"id":"1774785600250-1","words":"OVER-STROKE: 1.95 mm"}"""u8.ToArray();
            File.WriteAllText(Path.Combine(folder, "webhook.secret"), "glass-works_7\n");
            File.WriteAllBytes(Path.Combine(folder, "body.json"), body);
            File.WriteAllText(Path.Combine(folder, "verify.sh"), Block().Match(NotesPage.Read("webhook.md")).Groups[1].Value);
            var signature = WebhookSignature.Of("glass-works_7", 1_774_785_600, body);
            Assert.Equal("signed by us", Run(folder, "1774785600", signature));
            Assert.Equal("NOT signed by us", Run(folder, "1774785601", signature));
            File.AppendAllText(Path.Combine(folder, "body.json"), "\n");
            Assert.Equal("NOT signed by us", Run(folder, "1774785600", signature));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Run(string folder, string time, string signature)
    {
        var start = new ProcessStartInfo("/bin/bash", ["verify.sh"]) { WorkingDirectory = folder, RedirectStandardOutput = true };
        start.Environment["HTTP_STROKEWATCH_TIME"] = time;
        start.Environment["HTTP_STROKEWATCH_SIGNATURE"] = signature;
        using var run = Process.Start(start)!;
        var said = run.StandardOutput.ReadToEnd().Trim();
        run.WaitForExit();
        return said;
    }

    [GeneratedRegex("```sh\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Block();
}
