namespace Fettle.Web.Store.Postgres;

/// <summary>The private PostgreSQL server cannot be had. The message is one sentence that says what to do about it.</summary>
public sealed class PostgresUnavailableException : Exception
{
    public PostgresUnavailableException()
    {
    }

    public PostgresUnavailableException(string message) : base(message)
    {
    }

    public PostgresUnavailableException(string message, Exception? innerException) : base(message, innerException)
    {
    }
}
