using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using StrokeWatch.Configuration;
using StrokeWatch.Page.Access;

namespace StrokeWatch.Page;

/// <summary>Makes the web server: the smallest there is, without configuration from outside, without logging of its own, with narrow limits.</summary>
internal static class PageHost
{
    private const int MostConnections = 256;
    private const int MostHeaderBytes = 8192;
    private const int MostHeaders = 50;
    private const int MostLineBytes = 2048;

    /// <summary>What may wait for a slow reader in the program, and about as much again in the kernel: some ten events.</summary>
    private const int MostUnsentBytes = 32 * 1024;

    private static readonly TimeSpan HeaderPatience = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan IdlePatience = TimeSpan.FromSeconds(60);

    /// <summary>Makes it; it listens once it is started.</summary>
    public static WebApplication Make(PageSettings settings, RequestDelegate answer)
    {
        var builder = WebApplication.CreateEmptyBuilder(new() { ApplicationName = "strokewatch", ContentRootPath = AppContext.BaseDirectory });
        builder.Services.AddSingleton<IHostLifetime, OwnLifetime>();
        builder.WebHost.UseKestrelCore();
        builder.WebHost.UseSockets(sockets => sockets.CreateBoundListenSocket = at =>
        {
            var socket = SocketTransportOptions.CreateDefaultBoundListenSocket(at);
            socket.SendBufferSize = MostUnsentBytes;
            return socket;
        });
        if (settings.Certificate is not null)
        {
            builder.WebHost.UseKestrelHttpsConfiguration();
        }

        builder.WebHost.ConfigureKestrel(server =>
        {
            server.AddServerHeader = false;
            server.Limits.MaxConcurrentConnections = MostConnections;
            server.Limits.MaxConcurrentUpgradedConnections = 0;
            server.Limits.MaxRequestHeadersTotalSize = MostHeaderBytes;
            server.Limits.MaxRequestHeaderCount = MostHeaders;
            server.Limits.MaxRequestLineSize = MostLineBytes;
            server.Limits.MaxRequestBodySize = PageBody.MostBytes;
            server.Limits.MaxResponseBufferSize = MostUnsentBytes;
            server.Limits.RequestHeadersTimeout = HeaderPatience;
            server.Limits.KeepAliveTimeout = IdlePatience;
            server.Listen(settings.Listen, listen =>
            {
                listen.Protocols = HttpProtocols.Http1;
                if (settings.Certificate is { } certificate)
                {
                    listen.UseHttps(new HttpsConnectionAdapterOptions { ServerCertificate = certificate.Own, ServerCertificateChain = certificate.Chain });
                }
            });
        });
        var application = builder.Build();
        application.Run(answer);
        return application;
    }

    /// <summary>Signals are the program's, not the web server's.</summary>
    private sealed class OwnLifetime : IHostLifetime
    {
        /// <inheritdoc/>
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        /// <inheritdoc/>
        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
