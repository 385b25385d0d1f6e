using System.Net;
using Microsoft.AspNetCore.Http;

namespace StrokeWatch.Page;

/// <summary>Decides who is answered at all, and sets what browsers must hold to.</summary>
internal sealed class PageGuard(IReadOnlyList<string> names)
{
    /// <summary>Only this page's own files, no inline script or style, nothing framed, nothing sent anywhere else.</summary>
    public const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    /// <summary>Sets the headers of every answer.</summary>
    public static void Head(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers.CacheControl = "no-store";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=(), usb=(), serial=()";
    }

    /// <summary>Says why a request is refused, with its status; null where it is not.</summary>
    /// <param name="request">The request.</param>
    /// <param name="most">How many bytes its body may have.</param>
    public (int Status, string Sentence)? Trouble(HttpRequest request, int most = 0)
    {
        // A page of another site may have its own name resolve to this machine; plain addresses cannot be forged so.
        if (!Known(request.Host.Host))
        {
            return (StatusCodes.Status421MisdirectedRequest, "this name is not known here; use the address, localhost, or a name given under [page] names");
        }

        var origin = request.Headers.Origin.ToString();
        var site = request.Headers["Sec-Fetch-Site"].ToString();
        var visits = request.Headers["Sec-Fetch-Mode"] == "navigate";
        if ((origin.Length > 0 && origin != $"{request.Scheme}://{request.Host}") || (site is "cross-site" or "same-site" && !visits))
        {
            return (StatusCodes.Status403Forbidden, "only this page itself may ask from a browser");
        }

        return request.ContentLength > most || (most == 0 && request.Headers.TransferEncoding.Count > 0)
            ? (StatusCodes.Status413PayloadTooLarge, most == 0 ? "nothing here takes a body" : $"the body is longer than {most} bytes")
            : null;
    }

    private bool Known(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || IPAddress.TryParse(host, out _) || names.Contains(host, StringComparer.OrdinalIgnoreCase);
}
