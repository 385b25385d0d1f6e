using System.Diagnostics;
using StrokeWatch.Outputs.Relay;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Relay;

/// <summary>The request for a line, held against the kernel's own header; no GPIO chip is needed.</summary>
public sealed class ChipDriverTests
{
    private const string Program = """
        #include <linux/gpio.h>
        #include <stdio.h>
        #include <string.h>
        int main(void) {
            struct gpio_v2_line_request r;
            memset(&r, 0, sizeof r);
            r.offsets[0] = 17;
            strcpy(r.consumer, "strokewatch");
            r.num_lines = 1;
            r.config.flags = GPIO_V2_LINE_FLAG_OUTPUT;
            r.config.num_attrs = 1;
            r.config.attrs[0].attr.id = GPIO_V2_LINE_ATTR_ID_OUTPUT_VALUES;
            r.config.attrs[0].attr.values = 1;
            r.config.attrs[0].mask = 1;
            printf("%lx %lx %lx ", (unsigned long)GPIO_V2_GET_LINE_IOCTL, (unsigned long)GPIO_V2_LINE_SET_VALUES_IOCTL, (unsigned long)GPIO_V2_LINE_GET_VALUES_IOCTL);
            printf("%zu ", __builtin_offsetof(struct gpio_v2_line_request, fd));
            for (size_t i = 0; i < sizeof r; i++) printf("%02x", ((unsigned char *)&r)[i]);
            return 0;
        }
        """;

    [SkippableFact]
    public void The_bytes_of_a_request_are_those_that_the_kernel_s_header_makes()
    {
        Skip.IfNot(File.Exists("/usr/include/linux/gpio.h") && File.Exists("/usr/bin/gcc"), "gcc or the kernel's headers are not installed.");
        var folder = Directory.CreateTempSubdirectory("strokewatch-gpio-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "line.c"), Program);
            Run("/usr/bin/gcc", "-o", Path.Combine(folder, "line"), Path.Combine(folder, "line.c"));
            var words = Run(Path.Combine(folder, "line")).Split(' ');
            var request = new byte[ChipDriver.RequestBytes];
            Array.Fill(request, (byte)0xAA);
            ChipDriver.Fill(request, 17, high: true);
            Assert.Equal([$"{ChipDriver.GetLine:x}", $"{ChipDriver.SetValues:x}", $"{ChipDriver.GetValues:x}", $"{ChipDriver.DescriptorAt}", Convert.ToHexStringLower(request)], words);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void A_chip_that_is_not_there_is_said_in_a_line_by_driver_and_check()
    {
        var options = new RelayOptions { Chip = 200, Line = 4 };
        var trouble = Assert.Throws<IOException>(() => GpioLine.Open(options));
        Assert.Equal("/dev/gpiochip200 is not there", trouble.Message);
        Assert.Contains("/dev/gpiochip200 is not there", RelayProbe.Trouble(options), StringComparison.Ordinal);
    }

    private static string Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return said;
    }
}
