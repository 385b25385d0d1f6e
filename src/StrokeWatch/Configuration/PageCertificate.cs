using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace StrokeWatch.Configuration;

/// <summary>The certificate that the page is served with, from files of PEM.</summary>
/// <param name="Own">The server's own, with its key.</param>
/// <param name="Chain">Those that lead from it to its root, as they follow in the file.</param>
internal sealed record PageCertificate(X509Certificate2 Own, X509Certificate2Collection Chain)
{
    private const UnixFileMode Anybody = UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;

    /// <summary>Reads it; null where the files will not do, with the key of the table and what is wrong.</summary>
    public static PageCertificate? Read(string certificate, string key, out (string Key, string Trouble)? trouble)
    {
        foreach (var (file, name) in ((string, string)[])[(certificate, "certificate"), (key, "key")])
        {
            if (!File.Exists(file))
            {
                trouble = (name, $"{file} is not there");
                return null;
            }
        }

        try
        {
            if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(key) & Anybody) != 0)
            {
                trouble = ("key", $"{key} can be read by everybody: chmod 600 {key}");
                return null;
            }

            // What is loaded from PEM keeps its key in memory alone, which the TLS of one system does not take; through PKCS 12 all take it.
            using var loaded = X509Certificate2.CreateFromPemFile(certificate, key);
            var own = X509CertificateLoader.LoadPkcs12(loaded.Export(X509ContentType.Pkcs12), null);
            var chain = new X509Certificate2Collection();
            chain.ImportFromPemFile(certificate);
            trouble = null;
            return new(own, chain);
        }
        catch (CryptographicException wrong)
        {
            trouble = ("certificate", $"{certificate} and {key} are no certificate in PEM with its key ({wrong.Message.TrimEnd('.').ReplaceLineEndings(" ")})");
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            trouble = ("key", $"{certificate} or {key} cannot be read: check owner and mode of the files and their folder");
            return null;
        }
    }
}
