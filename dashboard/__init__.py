"""The dashboard: three places that answer what to plant, what to do now, and will it last."""
