using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Packaging;

/// <summary>
/// The program for arm64, run by an emulator of that processor, against the golden outputs that amd64 gave. STROKEWATCH_NATIVE_ARM64 names the folder of a published program, or says <c>build</c>:
/// then it is cross-built, which takes minutes.
/// </summary>
public sealed class ArmTests : IClassFixture<ArmTests.CrossBuilt>
{
    /// <summary>Fits that end a step earlier or later, and sums in another order, differ in the fifth digit at most.</summary>
    private const double Relative = 2e-5;

    /// <summary>One unit of the last digit that most keys are written with, and a half; small numbers have more digits.</summary>
    private const double LastDigit = 1.5e-5, LastOfSmall = 1e-6, Small = 1e-2;

    private readonly CrossBuilt built;

    public ArmTests(CrossBuilt built) => this.built = built;

    [SkippableTheory]
    [InlineData("strike-plain", "wav")]
    [InlineData("start-and-coast-down", "wav")]
    [InlineData("low-voltage", "wav")]
    [InlineData("steady-120hz", "csv")]
    [InlineData("phase-cut", "wav")]
    public void It_says_of_a_capture_what_amd64_said(string name, string kind)
    {
        var folder = Path.Combine(Repository.Root, "sim-data");
        var (status, output, error) = built.Run("replay", Path.Combine(folder, $"{name}.{kind}"), "--feeder", Path.Combine(folder, $"{name}.feeder.toml"), "--json", "-");
        Assert.True(status is 0 or 1, error);
        var differences = new List<string>();
        var (golden, now) = (JsonNode.Parse(File.ReadAllText(Path.Combine(folder, $"{name}.golden.json")))!, JsonNode.Parse(output)!);
        golden["capture"]!["file"] = $"{name}.{kind}";
        now["capture"]!["file"] = $"{name}.{kind}";
        Compare(name, golden, now, differences);
        Assert.True(differences.Count == 0, string.Join('\n', differences));
    }

    [SkippableFact]
    public void Its_demonstration_measures_where_the_emulator_has_no_pseudo_terminal()
    {
        using var folder = new TempFolder();
        var (_, output, error) = built.Run(["--preserve-status", "--signal=INT", "--kill-after=10", "60"], "watch", "--demo", "--demo-page", "127.0.0.1:0", "--demo-folder", folder.At("demo"));
        Assert.True(output.Contains("in band", StringComparison.Ordinal), output + error);
        Assert.DoesNotContain("Exception", error, StringComparison.Ordinal);
    }

    private static void Compare(string path, JsonNode? golden, JsonNode? now, List<string> found)
    {
        switch (golden, now)
        {
            case (JsonObject one, JsonObject other):
                foreach (var key in one.Select(pair => pair.Key).Union(other.Select(pair => pair.Key)))
                {
                    Compare($"{path}.{key}", one[key], other[key], found);
                }

                break;
            case (JsonArray one, JsonArray other) when one.Count == other.Count:
                for (var i = 0; i < one.Count; i++)
                {
                    Compare($"{path}[{i}]", one[i], other[i], found);
                }

                break;
            case (JsonValue one, JsonValue other) when one.GetValueKind() == JsonValueKind.Number && other.GetValueKind() == JsonValueKind.Number:
                var (wanted, got) = ((double)one, (double)other);
                if (Math.Abs(wanted - got) > Math.Max(Relative * Math.Abs(wanted), Math.Abs(wanted) < Small ? LastOfSmall : LastDigit))
                {
                    found.Add(string.Create(CultureInfo.InvariantCulture, $"{path}: {wanted} on amd64, {got} on arm64"));
                }

                break;
            default:
                if (golden?.ToJsonString() != now?.ToJsonString())
                {
                    found.Add($"{path}: {golden?.ToJsonString()} on amd64, {now?.ToJsonString()} on arm64");
                }

                break;
        }
    }

    /// <summary>The program for arm64, built once at most.</summary>
    public sealed class CrossBuilt : IDisposable
    {
        private const string Libraries = "/usr/aarch64-linux-gnu";
        private readonly TempFolder folder = new();
        private string? program;

        /// <summary>Runs it by the emulator.</summary>
        public (int Status, string Out, string Error) Run(params string[] arguments) => Tool.Run("qemu-aarch64-static", ["-L", Libraries, Program(), .. arguments]);

        /// <summary>Runs it by the emulator until a time limit ends it.</summary>
        public (int Status, string Out, string Error) Run(string[] limit, params string[] arguments) =>
            Tool.Run("timeout", [.. limit, "qemu-aarch64-static", "-L", Libraries, Program(), .. arguments]);

        public void Dispose() => folder.Dispose();

        private string Program()
        {
            var named = Environment.GetEnvironmentVariable("STROKEWATCH_NATIVE_ARM64");
            Skip.If(string.IsNullOrEmpty(named), "STROKEWATCH_NATIVE_ARM64 names no program for arm64, nor says build");
            Tool.Need("qemu-aarch64-static", "timeout");
            Skip.IfNot(Directory.Exists(Libraries), "the C library for arm64 is not installed");
            if (named != "build")
            {
                return Path.Combine(named!, "strokewatch");
            }

            Tool.Need("bash", "clang", "ld.lld", "aarch64-linux-gnu-gcc", "aarch64-linux-gnu-objcopy", "dpkg-deb");
            if (program is null)
            {
                var package = Tool.Say(Path.Combine(Repository.Root, "systemd", "build-deb"), "arm64", "--out", folder.At("arm")).Trim();
                Tool.Say("dpkg-deb", "--extract", package, folder.At("root"));
                program = folder.At(Path.Combine("root", "usr", "lib", "strokewatch", "strokewatch"));
            }

            return program;
        }
    }
}
