using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Fettle.Testing;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using Fettle.Web.Store.Postgres;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;

namespace Fettle.Web.Tests.Crash;

/// <summary>What the process says, and with which code it ends, when it cannot start as it was told to.</summary>
[Collection(nameof(OneAtATime))]
public sealed class StartTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("--role=wroker", "Fettle:Role (or --role) is web, worker or both.")]
    [InlineData("--Fettle:Jobs:SweepSeconds=60", "Fettle:Jobs:SweepSeconds is 1 to 59.")]
    [InlineData("--Fettle:Smtp:From=the dock", "Fettle:Smtp:From is an address such as Fettle <fettle@freight.example>.")]
    public async Task A_setting_that_cannot_be_meant_is_named_in_one_sentence(string argument, string sentence) =>
        AssertOneSentence(await Node.RunAsync(argument), sentence);

    [Fact]
    public async Task A_setting_that_does_not_exist_is_named()
    {
        var ended = await Node.RunAsync("--Fettle:Smtp:Hots=mail.example");

        Assert.Equal(1, ended.ExitCode);
        Assert.Contains("'Hots'", ended.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', ended.Errors);
    }

    [Fact]
    public async Task A_database_that_does_not_answer_is_named_in_one_sentence()
    {
        var ended = await Node.RunAsync("--ConnectionStrings:Fettle=Host=127.0.0.1;Port=1;Database=fettle;Username=fettle;Password=secret");

        AssertOneSentence(ended, "The configured database fettle at 127.0.0.1:1 cannot be opened (Connection refused): check ConnectionStrings:Fettle, or leave it out and Fettle starts a server of its own.");
    }

    [Fact]
    public async Task A_database_that_lets_us_not_in_is_named_in_one_sentence_without_the_password()
    {
        var wrong = new NpgsqlConnectionStringBuilder(await TestPostgres.CreateDatabaseAsync()) { Password = "six figs" };

        var ended = await Node.RunAsync($"--ConnectionStrings:Fettle={wrong.ConnectionString}");

        AssertOneSentence(ended, $"The configured database {wrong.Database} at 127.0.0.1:{wrong.Port} cannot be opened (password authentication failed for user \"fettle\"): check ConnectionStrings:Fettle, or leave it out and Fettle starts a server of its own.");
    }

    [Fact]
    public async Task A_connection_string_that_is_none_is_said_to_be_none()
    {
        var ended = await Node.RunAsync("--ConnectionStrings:Fettle=Hoost=127.0.0.1");

        Assert.Equal(1, ended.ExitCode);
        Assert.StartsWith("The configured connection string cannot be read (", ended.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', ended.Errors);
    }

    [Theory]
    [InlineData("13.14", "The configured database runs on PostgreSQL 13.14 and Fettle needs 14 or later: name a newer server in ConnectionStrings:Fettle, or leave it out and Fettle starts one of its own.")]
    [InlineData("14.0", null)]
    [InlineData("18.4", null)]
    public void A_server_that_is_too_old_is_refused_with_both_versions_named(string version, string? complaint) =>
        Assert.Equal(complaint, Database.Complaint(Version.Parse(version)));

    [Fact]
    public async Task A_database_without_the_schema_is_refused_with_what_to_do_and_the_command_helps()
    {
        var database = $"--ConnectionStrings:Fettle={await TestPostgres.CreateDatabaseAsync()}";
        var all = string.Join(", ", Migration.All.Select(migration => migration.Name));

        AssertOneSentence(
            await Node.RunAsync(database),
            $"The configured database lacks {all}: run this program once with the word migrate, or set Fettle:Database:Migrate to true.");
        var migrated = await Node.RunAsync("migrate", database);
        Assert.Equal((0, ""), (migrated.ExitCode, migrated.Errors));
        Assert.Contains("Applied 0001_initial.sql", migrated.Output, StringComparison.Ordinal);
        var again = await Node.RunAsync("migrate", database);
        Assert.Equal((0, "The schema is up to date.", ""), again);
        await using var node = await Node.StartAsync(database);
    }

    [Fact]
    public async Task A_database_with_another_migration_of_the_same_name_is_refused()
    {
        var database = await TestPostgres.CreateDatabaseAsync();
        await Migrator.ApplyAsync(database, [Migration.All[0] with { Sql = "select 1;" }], Cancel);

        foreach (var command in new[] { "migrate", "--role=web" })
        {
            AssertOneSentence(
                await Node.RunAsync(command, $"--ConnectionStrings:Fettle={database}"),
                "Migration 0001_initial.sql is not the one that was applied to this database: put the file back as it was, and write what is to change as the next migration.");
        }
    }

    [Fact]
    public async Task A_port_that_is_taken_is_named_in_one_sentence()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        var address = $"http://127.0.0.1:{((IPEndPoint)taken.LocalEndpoint).Port}";

        var ended = await Node.RunAsync("--urls", address, "--Fettle:Database:Migrate=true", $"--ConnectionStrings:Fettle={await TestPostgres.CreateDatabaseAsync()}");

        Assert.Equal(1, ended.ExitCode);
        Assert.Equal($"Failed to bind to address {address}: address already in use: stop the program that has it, or choose another address with --urls http://localhost:5181", ended.Errors);
        Assert.DoesNotContain("   at ", ended.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Four_nodes_may_start_at_once_on_an_empty_database()
    {
        for (var round = 1; round <= 2; round++)
        {
            var database = await TestPostgres.CreateDatabaseAsync();
            string[] roles = ["both", "web", "worker", "both"];

            var nodes = await Task.WhenAll(roles.Select(role => Node.StartAsync("--role", role, "--Fettle:Database:Migrate=true", "--Fettle:Demo:Load=false", $"--ConnectionStrings:Fettle={database}")));

            Assert.Single(nodes, node => node.Output.Contains("Applied 0001_initial.sql", StringComparison.Ordinal));
            foreach (var node in nodes)
                await node.DisposeAsync();
        }
    }

    [Fact]
    public async Task A_node_whose_database_is_gone_says_that_it_is_not_ready_and_stays()
    {
        var options = new PrivatePostgresOptions { DataFolder = Leftovers.NewFolder(), Durable = false };
        try
        {
            await using var server = await PrivatePostgres.StartAsync(options, NullLogger.Instance, Cancel);
            await using var node = await Node.StartAsync("--role=web", "--Fettle:Database:Migrate=true", $"--ConnectionStrings:Fettle={server.ConnectionString}");

            await server.DisposeAsync();

            using var client = new HttpClient { BaseAddress = node.Address };
            using var answer = await client.GetAsync("/health", Cancel);
            Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
            Assert.False(node.HasExited);
        }
        finally
        {
            await PrivatePostgres.DestroyAsync(options, NullLogger.Instance, CancellationToken.None);
        }
    }

    [Fact]
    public async Task Told_to_stop_in_the_middle_of_a_mail_it_stops_within_fifteen_seconds_and_another_sends_it()
    {
        await using var yard = await Yard.OpenAsync();
        yard.Mail.Fault = MailFault.Stall;
        Guid pickup;
        await using (var node = await yard.StartNodeAsync("both"))
        {
            using var client = yard.ClientOf(node);
            pickup = Guid.Parse((await client.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!);
            Assert.Equal(HttpStatusCode.Created, (await client.PostAsync($"/api/v1/pickups/{pickup}/submission", new System.Text.Json.Nodes.JsonObject())).Status);
            await Yard.UntilAsync(() => Task.FromResult(yard.Mail.Attempts >= 2), () => $"{yard.Mail.Attempts} mails begun");
            var told = Stopwatch.StartNew();

            Assert.Equal(0, await node.TerminateAsync());

            Assert.InRange(told.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(15));
        }

        yard.Mail.Fault = MailFault.None;
        await using var next = await yard.StartNodeAsync("worker");
        Assert.All(await yard.AllSentAsync(pickup), notice => Assert.Single(yard.Mail.Messages, mail => mail.MessageId == notice.MessageId));
    }

    private static void AssertOneSentence((int ExitCode, string Output, string Errors) ended, string sentence)
    {
        Assert.Equal(sentence, ended.Errors);
        Assert.Equal(1, ended.ExitCode);
    }
}
