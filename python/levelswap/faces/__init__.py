"""The faces: how people meet levelswap. A face computes nothing about the trade."""
